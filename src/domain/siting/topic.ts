import { defaultProtocol } from "../protocol/index.ts";
import type { Topic } from "../topic.ts";
import { type SitingAnswer, siting } from "./answer.ts";
import { questionOf, type SitingDocument } from "./document.ts";
import { sitingSchema } from "./input.ts";

/** An adult before an ileostomy: a lower midline scar, creases that come with sitting and bending. */
const example = {
  landmarks: {
    midline: [
      [0, 160],
      [0, -170],
    ],
    muscleBorder: [
      [
        [-8, 140],
        [-10, 0],
        [-7, -130],
        [-46, -130],
        [-72, -40],
        [-76, 40],
        [-74, 140],
      ],
      [
        [8, 140],
        [74, 140],
        [76, 40],
        [72, -40],
        [46, -130],
        [7, -130],
        [10, 0],
      ],
    ],
    hipBones: { right: [-125, -78], left: [125, -78] },
    bones: [{ label: "pubis", point: [0, -165] }],
    scars: [
      {
        label: "lower midline scar",
        line: [
          [2, -25],
          [0, -90],
          [-2, -150],
        ],
      },
    ],
    creases: {
      sitting: [
        [
          [-120, -112],
          [-40, -126],
          [40, -126],
          [120, -112],
        ],
      ],
      bending: [
        [
          [-115, 24],
          [-30, 16],
          [40, 18],
          [118, 26],
        ],
      ],
    },
    folds: {},
    beltLine: [
      [-150, -2],
      [0, 8],
      [150, -2],
    ],
    visibleLimit: {
      sitting: [
        [-150, -118],
        [0, -128],
        [150, -118],
      ],
    },
  },
  stomaType: "ileostomy",
  clearanceMm: 40,
  barrierDiameterMm: 75,
};

export const sitingTopic: Topic<SitingDocument, SitingAnswer> = {
  name: "siting",
  summary: "Where the stoma may go: the region that keeps every clearance, the best places, what conflicts.",
  example,
  schema: sitingSchema,
  run: (document) => siting(questionOf(document, defaultProtocol)),
};
