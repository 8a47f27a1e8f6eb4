export type Vector = readonly [x: number, y: number, z: number];

/** Rows one after the other. */
export type Rotation = readonly number[];

export function turned(r: Rotation, [x, y, z]: Vector): Vector {
  return [
    r[0]! * x + r[1]! * y + r[2]! * z,
    r[3]! * x + r[4]! * y + r[5]! * z,
    r[6]! * x + r[7]! * y + r[8]! * z,
  ];
}

/** The opposite rotation applied. */
export function turnedBack(r: Rotation, [x, y, z]: Vector): Vector {
  return [
    r[0]! * x + r[3]! * y + r[6]! * z,
    r[1]! * x + r[4]! * y + r[7]! * z,
    r[2]! * x + r[5]! * y + r[8]! * z,
  ];
}

export function product(a: Rotation, b: Rotation): Rotation {
  return Array.from({ length: 9 }, (_, at) => {
    const [row, column] = [Math.floor(at / 3), at % 3];
    return a[3 * row]! * b[column]! + a[3 * row + 1]! * b[3 + column]! + a[3 * row + 2]! * b[6 + column]!;
  });
}

/** Rotation about an axis by its length in radians (Rodrigues). */
export function rotationBy(wx: number, wy: number, wz: number): Rotation {
  const angle = Math.sqrt(wx * wx + wy * wy + wz * wz);
  const a = angle < 1e-9 ? 1 : Math.sin(angle) / angle;
  const b = angle < 1e-9 ? 0.5 : (1 - Math.cos(angle)) / (angle * angle);
  const c = 1 - b * angle * angle;
  return [
    c + b * wx * wx,
    b * wx * wy - a * wz,
    b * wx * wz + a * wy,
    b * wx * wy + a * wz,
    c + b * wy * wy,
    b * wy * wz - a * wx,
    b * wx * wz - a * wy,
    b * wy * wz + a * wx,
    c + b * wz * wz,
  ];
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function scaled(a: Vector, by: number): Vector {
  return [a[0] * by, a[1] * by, a[2] * by];
}

export function minus(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

export function lengthOf(a: Vector): number {
  return Math.sqrt(dot(a, a));
}
