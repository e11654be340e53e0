/** What waves, or whatever else shakes it, do to the hull at one time. */
export interface WaveMotion {
  /** m/s²; forward, to port and up above 0. */
  readonly surge: number;
  readonly sway: number;
  readonly heave: number;
  /** Radians; to starboard, bow up, and bow to starboard above 0. */
  readonly roll: number;
  readonly pitch: number;
  readonly yaw: number;
}

/** The motion of a hull at a time, from where it lies, m east and north, and where its bow points, radians. */
export type Waves = (atS: number, eastM: number, northM: number, headingRad: number) => WaveMotion;

/** What several sources do together; nothing where there is none. */
export const summed =
  (sources: readonly Waves[]): Waves =>
  (atS, eastM, northM, headingRad) => {
    let [surge, sway, heave, roll, pitch, yaw] = [0, 0, 0, 0, 0, 0];
    for (const source of sources) {
      const motion = source(atS, eastM, northM, headingRad);
      surge += motion.surge;
      sway += motion.sway;
      heave += motion.heave;
      roll += motion.roll;
      pitch += motion.pitch;
      yaw += motion.yaw;
    }
    return { surge, sway, heave, roll, pitch, yaw };
  };
