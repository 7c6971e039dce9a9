import { MINIMUM_SD_C } from '../climate/freeze-dates.js';
import { WATERFALL_FACTOR } from '../evaporation/top-up.js';
import { RIPE_AFTER_DAYS_AT_20_C } from '../filter/maturation.js';
import { NITRIFICATION_RATE_20_G_N_PER_M2_DAY } from '../filter/nitrification.js';
import { HELD_G_PER_L } from '../filter/rinse-interval.js';
import { UNKNOWN_VOLUME_SIGMA_PCT } from '../hydraulics/dose-volume.js';
import { FEED_STOP_BELOW_C } from '../stock/feed-ration.js';
import { FULL_TO_KG_PER_M3 } from '../stock/stocking.js';
import { FEWEST_READINGS } from '../thermal/exposure-bank.js';
import { GROUND_CONDUCTIVITY_W_PER_M_K } from '../thermal/ground-heat.js';
import { smallPondFactor } from '../thermal/heat-balance.js';
import { GARDEN_POND_ICE } from '../thermal/ice.js';
import { FADING_ERROR_SD_C, OFFSET_SD_C, READING_NOISE_SD_C } from '../thermal/readings-correction.js';
import { windOverPond } from '../thermal/shade.js';
import { WATERFALL_APPROACH } from '../thermal/waterfall.js';
import { LAMP_RATED_HOURS } from '../uv/lamp.js';
import { BOTTOM_RESPIRATION_20_G_PER_M2_DAY, WATER_RESPIRATION_20_MG_PER_L_H } from '../water/pond-respiration.js';
import { SPLASH_SHARE } from '../water-loss/loss-errors.js';

/** A number the trade and the literature leave open: what the product takes, how far it may be off, what settles it. */
export interface NotKnown {
  /** Kebab-case, unique. */
  readonly id: string;
  readonly title: string;
  /** What the product reckons with; null where each pond says its own. */
  readonly used: number | null;
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  /** Why it is not known, and what it moves. */
  readonly why: string;
  readonly learnedFrom: string;
  readonly source: string;
}

const GARDEN_POND_AREA_M2 = 20;
/** Wind, shade, falls and ground are learned together. */
const LEARNED = `At least ${FEWEST_READINGS} water temperatures, the first and the last a season apart, choose among many guesses of wind, shade, falls and ground.`;

export const NOT_KNOWN: readonly NotKnown[] = [
  {
    id: 'wind',
    title: 'Wind over a small pond',
    used: windOverPond({ shelter: 'suburban' }),
    min: 0.5,
    max: 6,
    unit: 'm/s',
    why: 'Airports measure it, gardens do not. Wrong wind costs the forecast more than anything else: at an open lake 2 instead of 4 m/s cost 1.2 °C.',
    learnedFrom: LEARNED,
    source: 'Common practice: 4 in the open, 1.5 in a suburban garden, 0.8 between walls. Unproved on garden ponds.',
  },
  {
    id: 'small-pond-exchange',
    title: 'How much faster a small pond exchanges heat and vapour',
    used: smallPondFactor({ surfaceAreaM2: GARDEN_POND_AREA_M2 }),
    min: 1,
    max: 1.5,
    unit: '',
    why: 'The factor is of reservoirs and lakes; it is carried on to 20 m² although nobody measured there.',
    learnedFrom: 'With the wind: both act on the same term, and a wrong factor is taken for other wind.',
    source: 'Harbeck (1962), quoted by McMahon et al. (2013); from memory. Shown for 20 m².',
  },
  {
    id: 'shade',
    title: 'Share of the sun kept off',
    used: null,
    min: 0.1,
    max: 0.9,
    unit: '',
    why: 'Trees grow and lose leaves, walls shade by the hour. From none to a half is worth 3.5 °C in July and three weeks of a spring date.',
    learnedFrom: `The hours of direct sun at midsummer that the pond record asks for. ${LEARNED}`,
    source: 'Derived: one minus hours of sun over the length of the day.',
  },
  {
    id: 'waterfall',
    title: 'How far falling water comes toward the wet bulb',
    used: WATERFALL_APPROACH.value,
    min: WATERFALL_APPROACH.min,
    max: WATERFALL_APPROACH.max,
    unit: '',
    why: 'No measurement was found. A wide thin sheet cools more than a spout.',
    learnedFrom: LEARNED,
    source: 'Common practice; the low end of 0.05 to 0.15.',
  },
  {
    id: 'ground-heat',
    title: 'How well the ground under a pond carries heat',
    used: GROUND_CONDUCTIVITY_W_PER_M_K.value,
    min: GROUND_CONDUCTIVITY_W_PER_M_K.min,
    max: GROUND_CONDUCTIVITY_W_PER_M_K.max,
    unit: 'W/m/K',
    why: 'Mud and soil take up heat in summer and give it back weeks later. Dry sand and tanks carry little, wet clay much; 0 is insulated.',
    learnedFrom: `${LEARNED} A pond fed by a spring stays outside the model.`,
    source: 'Common values of soil physics, from memory.',
  },
  {
    id: 'model-offset',
    title: 'Steady error of the model on one pond',
    used: OFFSET_SD_C.value,
    min: OFFSET_SD_C.min,
    max: OFFSET_SD_C.max,
    unit: '°C',
    why: 'Everything above together: how far a pond nobody measured may lie off, one standard deviation.',
    learnedFrom: 'Every water temperature that is believed; six a year remove most of it.',
    source: 'Derived on four small lakes; no year-round record of a garden pond was found.',
  },
  {
    id: 'model-fading-error',
    title: 'Passing error of the model',
    used: FADING_ERROR_SD_C,
    min: 1,
    max: 1.6,
    unit: '°C',
    why: 'Weather the model does not see: a week of wind, a cold inflow. It lasts one to four weeks.',
    learnedFrom: 'A reading corrects the days after it and fades in about eight days.',
    source: 'Derived on four small lakes.',
  },
  {
    id: 'thermometer',
    title: 'Error of a reading by hand',
    used: READING_NOISE_SD_C,
    min: 0.5,
    max: 1.5,
    unit: '°C',
    why: 'The sensor, the hour and the depth: mornings lie 0.5 to 1.5 °C below the mean of the day, late afternoons above it.',
    learnedFrom: 'It is not learned; a reading more than three deviations off is not believed, and asked for again.',
    source: 'Common practice: 0.5 °C sensor and 0.7 °C hour and depth.',
  },
  {
    id: 'daily-minimum-spread',
    title: 'Spread of single nights about their normal',
    used: MINIMUM_SD_C.value,
    min: 3,
    max: 5,
    unit: '°C',
    why: 'Stations carry the spread of daily means, not of minima. It moves early and late freeze dates by days.',
    learnedFrom: 'A daily weather file of the site.',
    source: 'Common practice: continental 5, marine 3, desert 3.5; a site’s own figures go before it.',
  },
  {
    id: 'ice',
    title: 'Ice for a given cold',
    used: GARDEN_POND_ICE.value,
    min: GARDEN_POND_ICE.min,
    max: GARDEN_POND_ICE.max,
    unit: 'cm per √(°C·d)',
    why: 'Snow slows it, wind and bare ice speed it. Dates of first and last ice are good to five days at best.',
    learnedFrom: 'Notes of ice on a visit; not yet fed back.',
    source:
      'Common practice inside the band of the US Army’s cold regions laboratory. Never a sign that ice carries anybody.',
  },
  {
    id: 'leaf-fall',
    title: 'Date of leaf fall',
    used: 0,
    min: -14,
    max: 14,
    unit: 'd',
    why: 'No published table of leaf-net dates was found; fitted models do no better than a site’s average date.',
    learnedFrom: 'Reports that leaves are down, and the date on which the net was really put up.',
    source: 'Common practice.',
  },
  {
    id: 'falls-evaporation',
    title: 'What a running waterfall adds to evaporation',
    used: WATERFALL_FACTOR,
    min: 1,
    max: 1.3,
    unit: '×',
    why: 'Wet stones and thrown drops; no measured source was found.',
    learnedFrom: 'Metered top-ups and leak tests with the falls on and off.',
    source: 'Common practice.',
  },
  {
    id: 'splash',
    title: 'Spray that leaves the basin in a day',
    used: SPLASH_SHARE,
    min: 0,
    max: 0.01,
    unit: 'of the hourly flow',
    why: 'Counted only where somebody says that spray leaves the basin: a wrong share would hide a leak.',
    learnedFrom: 'A leak test with the falls off beside one with the falls on.',
    source: 'Common practice.',
  },
  {
    id: 'nitrification',
    title: 'What a square metre of ripe media takes at 20 °C',
    used: NITRIFICATION_RATE_20_G_N_PER_M2_DAY,
    min: 0.1,
    max: 0.9,
    unit: 'g N/m²/d',
    why: 'It falls with little ammonia, with dirt and with cold, each by a factor of its own.',
    learnedFrom: 'Ammonia and nitrite readings; a pond in which both stay at zero has more capacity than it needs.',
    source: 'Common practice inside published rates.',
  },
  {
    id: 'ripening',
    title: 'Days in which a new filter ripens at 20 °C',
    used: RIPE_AFTER_DAYS_AT_20_C,
    min: 20,
    max: 56,
    unit: 'd',
    why: 'Seeding, alkalinity and temperature decide; the curve only plans.',
    learnedFrom: 'Two readings of ammonia and nitrite in order, two days apart, end it whatever the curve says.',
    source: 'Common practice.',
  },
  {
    id: 'rinse-capacity',
    title: 'Dry solids a litre of media holds',
    used: HELD_G_PER_L,
    min: 2,
    max: 10,
    unit: 'g/L',
    why: 'No published capacity of pond foam was found.',
    learnedFrom: 'The interval at which the crew finds the media really clogged.',
    source: 'Common practice.',
  },
  {
    id: 'stocking',
    title: 'Live mass a pond is full with',
    used: FULL_TO_KG_PER_M3,
    min: 0.5,
    max: 5,
    unit: 'kg/m³',
    why: 'Rules in print differ tenfold, since filter and oxygen decide and not the water alone.',
    learnedFrom: 'Ammonia and dawn oxygen of that pond.',
    source: 'Common practice.',
  },
  {
    id: 'feeding-stop',
    title: 'Water at which feeding stops',
    used: FEED_STOP_BELOW_C,
    min: 8,
    max: 13,
    unit: '°C',
    why: 'Carp eat very little below 10 °C and nothing by 7 to 8; advice in print runs from 7 to 13.',
    learnedFrom: 'The office sets it in the care rule; below 8 °C it stays locked.',
    source: 'FAO for carp; the usual advice is 10.',
  },
  {
    id: 'lamp-life',
    title: 'Hours in which a UV lamp fades',
    used: LAMP_RATED_HOURS,
    min: 5000,
    max: 12_000,
    unit: 'h',
    why: 'Makers rate differently, and whether a dose clears green water hangs on the water too.',
    learnedFrom: 'The plate of the lamp, typed into the pond record.',
    source: 'From memory.',
  },
  {
    id: 'respiration-of-water',
    title: 'Oxygen the water itself uses at night',
    used: WATER_RESPIRATION_20_MG_PER_L_H.tinted,
    min: 0.02,
    max: 0.6,
    unit: 'mg/L per hour',
    why: 'Algae and bacteria of each pond differ thirtyfold; in green water they decide the oxygen of dawn.',
    learnedFrom: 'Oxygen read at dusk and at dawn; without it, how the water looks.',
    source: 'From memory: at 20 °C, for water with a tint; 0.04 for clear and 0.25 for green water.',
  },
  {
    id: 'respiration-of-bottom',
    title: 'Oxygen the bottom uses',
    used: BOTTOM_RESPIRATION_20_G_PER_M2_DAY['some-sludge'],
    min: 0.2,
    max: 4,
    unit: 'g/m² per day',
    why: 'It hangs on sludge nobody looks at, and in a shallow pond it weighs as much as the fish.',
    learnedFrom: 'The depth of the sludge; oxygen read at dusk and at dawn.',
    source: 'From memory: at 20 °C, for some sludge; 0.3 for a clean bottom and 3 for thick sludge.',
  },
  {
    id: 'volume',
    title: 'Volume of a pond nobody metered',
    used: UNKNOWN_VOLUME_SIGMA_PCT,
    min: 5,
    max: 50,
    unit: '%',
    why: 'Length times width times depth forgets shelves and stones; every dose hangs on it.',
    learnedFrom: 'The water meter at the first fill, or a salt test.',
    source: 'Common practice: one standard deviation.',
  },
];
