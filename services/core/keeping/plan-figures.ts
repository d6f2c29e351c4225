/**
 * What a plan takes for granted, each figure with its unit and the honest source of it. All are shown with the plan.
 *
 * `published` names where it was seen; the others are `common practice, no source`, `from memory` and `judgement`.
 */
import {
  dryDensityOfSand_kg_m3,
  RESPIRATION_AT_15_C_W_kg,
  RESPIRATION_Q10,
  ROOT_DENSITY_kg_m3,
} from '../physics/index.js';

export interface PlanFigure {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
  readonly meaning: string;
}

const figure = (value: number, unit: string, meaning: string, source: string): PlanFigure => ({
  value,
  unit,
  source,
  meaning,
});

/** Of loose sand; grains of 2660 kg/m3 leave it 1596 kg/m3 dry, the table prints 1600. */
export const SAND_POROSITY = 0.4;

export const PLAN_FIGURES = {
  root_kg: figure(
    0.3,
    'kg',
    'mean mass of a root',
    'common practice, no source: about 350 roots in 100 L; published volumes of 240 to 450 cm3 (Obomeghei & Ebabhamiegbebho, abstract) hold it',
  ),
  root_density: figure(
    ROOT_DENSITY_kg_m3 / 1000,
    'kg/L',
    'mass of a litre of roots',
    'from memory: the middle of 1.03 to 1.15 for whole fresh roots',
  ),
  root_length_by_width: figure(
    1.8,
    '',
    'length of a root by its width',
    'published: 110.7 mm by 61.4 mm, variety Jewel (Adetola et al. 2021, Turk. J. Agr. Eng. Res. 2, 230-238); short varieties have 1.2',
  ),
  root_cover: figure(
    0.55,
    '',
    'share of the floor that a course of roots covers, none touching another',
    'judgement: with it a pit of 450 L takes within a tenth of the roots that practice puts there',
  ),
  sand_between: figure(
    5,
    'cm',
    'sand under, between and over the courses, at the least',
    'common practice, no source',
  ),
  sand_beside: figure(
    1.5,
    'cm',
    'sand between a root and the wall or the ledge of a step, at the least',
    "judgement: a finger's breadth, so that no root touches the ground",
  ),
  sand_density: figure(
    dryDensityOfSand_kg_m3(SAND_POROSITY) / 1000,
    'kg/L',
    'mass of a litre of dry loose sand',
    'published: table after de Vries 1963 and Smits et al. 2010, porosity 0.40; 1.4 to 1.8 from loose to dense',
  ),
  bucket: figure(10, 'L', 'what a bucket holds, level with its rim', 'common practice, no source'),
  hand: figure(10, 'cm', 'breadth of a hand with its thumb', 'from memory: adults, rounded'),
  span: figure(20, 'cm', 'a spread hand, thumb to little finger', 'from memory: adults, rounded'),
  forearm: figure(45, 'cm', 'elbow to finger tips', 'from memory: adults, 42 to 48 cm'),
  stride: figure(75, 'cm', 'an easy stride', 'from memory: adults, 60 to 80 cm'),
  swell_low: figure(
    1.1,
    '',
    'volume of earth once dug out, by its volume in the ground',
    'from memory: 1.1 of sandy earth to 1.3 of clay',
  ),
  swell_high: figure(1.3, '', 'the same of clay', 'from memory: 1.1 of sandy earth to 1.3 of clay'),
  eaves: figure(50, 'cm', 'how far the roof reaches beyond the opening', 'judgement'),
  eaves_height: figure(90, 'cm', 'height of the eaves', 'judgement: low against rain, high enough to get in'),
  thatch_pitch: figure(45, 'degrees', 'slope of the thatch', 'from memory: flatter thatch lets rain in'),
  pole_spacing: figure(200, 'cm', 'from one side pole to the next, at the most', 'judgement'),
  pole_in_ground: figure(40, 'cm', 'part of a pole that stands in the ground', 'judgement'),
  respiration: figure(
    RESPIRATION_AT_15_C_W_kg.cured,
    'W/kg',
    'heat of cured roots at 15 °C; 0.0475 to 0.0684 by variety',
    'from memory: USDA Agriculture Handbook 66, ASHRAE Refrigeration',
  ),
  respiration_Q10: figure(
    RESPIRATION_Q10,
    '',
    'growth of that heat in 10 °C',
    'from memory: 1.9 to 2.2; a textbook says two to three times',
  ),
  conductivity_spread: figure(
    0.2,
    '',
    'how far the conductivity of dry sand may be off, as a share',
    'published: Johansen 1975 as quoted in Farouki 1986',
  ),
  ground: figure(
    20,
    '°C',
    'warmth of the ground around a pit, of the air around a box',
    'judgement: between a cool dry season and a hot one',
  ),
  probes_enough: figure(
    0.75,
    '',
    'part of the bed in which probes shall find a source, where their number is not given',
    'judgement',
  ),
  probes_most: figure(6, '', 'probes at the most, where their number is not given', 'judgement'),
  waist: figure(100, 'cm', 'depth that reaches to the waist', 'judgement'),
  reach: figure(
    70,
    'cm',
    'how far an arm reaches from the edge',
    'from memory: shoulder to finger tips 65 to 75 cm',
  ),
  heavy: figure(
    23,
    'kg',
    'what one person lifts at the most, held close and upright',
    'from memory: load constant of the revised NIOSH lifting equation, 1991',
  ),
} as const satisfies Record<string, PlanFigure>;

export type PlanFigureName = keyof typeof PLAN_FIGURES;

export const figureOf = (name: PlanFigureName): number => PLAN_FIGURES[name].value;
