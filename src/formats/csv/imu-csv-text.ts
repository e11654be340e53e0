/** IMU records to be written, one row each. */
export interface ImuRecords {
  /** Unix time of stamp 0, s; null where the log has its own clock only. */
  readonly originUnixS: number | null;
  readonly stampS: Float64Array;
  /** Specific force along x, y, z, m/s². */
  readonly forceMps2: readonly Float64Array[];
  /** Rotation about x, y, z, rad/s; null where not logged. */
  readonly rotationRads: readonly Float64Array[] | null;
}

/** Digits after the point: tenths of a millisecond, and a fifth of the noise of a good sensor. */
const DIGITS = Object.freeze({ time: 4, force: 3, rotation: 4 });

/** An IMU log in CSV, columns named by quantity and unit. Numbers are rounded: the same bytes everywhere. */
export const imuCsvText = ({ originUnixS, stampS, forceMps2, rotationRads }: ImuRecords): string => {
  const axes = ['x', 'y', 'z'];
  const head = [
    originUnixS === null ? 'time_s' : 'time_unix_s',
    ...axes.map((axis) => `a${axis}_mps2`),
    ...(rotationRads === null ? [] : axes.map((axis) => `g${axis}_rads`)),
  ];
  const lines = [`${head.join(',')}\n`];
  for (let i = 0; i < stampS.length; i++) {
    let line = ((originUnixS ?? 0) + stampS[i]!).toFixed(DIGITS.time);
    for (const column of forceMps2) line += `,${column[i]!.toFixed(DIGITS.force)}`;
    if (rotationRads !== null)
      for (const column of rotationRads) line += `,${column[i]!.toFixed(DIGITS.rotation)}`;
    lines.push(`${line}\n`);
  }
  return lines.join('');
};
