/** The version that `thole --version` prints; a test holds it in step with package.json. */
export const VERSION = '0.1.0';
