import * as z from 'zod';

/** What a line across the water is on a course. */
export const LINE_KINDS = ['start', 'mark', 'finish'] as const;

const feature = z.looseObject({
  type: z.literal('Feature').meta({ description: 'GeoJSON feature' }),
  properties: z
    .looseObject({
      line: z
        .enum(LINE_KINDS)
        .optional()
        .meta({ description: 'what the line is: start, mark or finish; left out where it is none' }),
      along_m: z
        .number()
        .min(0)
        .max(1_000_000)
        .optional()
        .meta({ description: 'metres from the start along the course; measured where left out' }),
      role: z
        .string()
        .optional()
        .meta({ description: 'centreline for the line that follows the course; others are ignored' }),
      name: z.string().optional().meta({ description: 'a name of your own' }),
    })
    .nullable(),
  geometry: z
    .looseObject({
      type: z
        .string()
        .meta({ description: 'LineString, or a MultiLineString of one, for a line or the centreline' }),
      coordinates: z
        .array(z.unknown())
        .optional()
        .meta({ description: 'longitude and latitude of each point' }),
    })
    .nullable(),
});

/** A course: GeoJSON (RFC 7946) with a start, any number of marks and a finish, and perhaps a centreline. */
export const courseFile = z.looseObject({
  type: z.literal('FeatureCollection').meta({ description: 'GeoJSON feature collection' }),
  features: z.array(feature).min(1),
  crs: z
    .looseObject({ properties: z.looseObject({ name: z.string().optional() }).optional() })
    .nullable()
    .optional()
    .meta({ description: 'coordinate system, which must be WGS84; left out in RFC 7946' }),
});

export type CourseFile = z.infer<typeof courseFile>;
export type LineKind = (typeof LINE_KINDS)[number];
