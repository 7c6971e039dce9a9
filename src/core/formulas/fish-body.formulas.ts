import { carpStandardMassG, relativeMassShare } from '../stock/carp-comparison.js';
import { fishMassG, turtleKoiEquivalentKg } from '../stock/fish-mass.js';
import { greatestGrowth, lengthAfterCm, lengthAtAgeCm } from '../stock/growth.js';
import type { Formula } from './formula.js';
import { asked, asSpecies, LENGTH, SPECIES, WATER, worked } from './stock-inputs.js';

/** What fish weigh and how they grow. */
export const FISH_BODY_FORMULAS: readonly Formula[] = [
  {
    id: 'fish-mass',
    field: 'fish',
    title: 'Mass of a fish from its length',
    usedFor: 'The live mass of every pond, and with it food, waste, oxygen and the verdict on the stock.',
    equations: ['W = a L^b'],
    inputs: [SPECIES, LENGTH],
    symbols: [
      { symbol: 'a', meaning: 'Koi and other fish; goldfish', unit: '', value: '0.0100; 0.01349' },
      { symbol: 'b', meaning: 'Koi and other fish; goldfish', unit: '', value: '3.129; 3.00' },
    ],
    validity:
      'Koi and other fish 1 to 120 cm, goldfish 1 to 60 cm; outside it is refused. Single fish differ by 15 to 20 %.',
    source:
      'Carp: de Wilt & van Emmerik (2008); goldfish: FishBase; both as quoted in the AmP collection (published source)',
    compute: (values) => [
      worked(
        'W',
        'Mass of one fish',
        fishMassG({ species: asSpecies(values.choice('species')), lengthCm: values.number('lengthCm') }),
        'g',
        0,
      ),
    ],
  },
  {
    id: 'carp-relative-mass',
    field: 'fish',
    title: 'Is a weighed koi thin or plump?',
    usedFor: 'A yardstick for a fish that was weighed; it is not the mass the pond is judged by.',
    equations: ['log10 Ws = −4.639 + 2.920 log10(10 L)', 'Wr = W / Ws'],
    inputs: [
      asked('lengthCm', 'L', 'Total length', 'cm', [20, 120, 40]),
      asked('massG', 'W', 'As weighed', 'g', [1, 50_000, 1000]),
    ],
    symbols: [],
    validity: 'Carp from 20 cm on; shorter ones are refused. Below 0.8 a fish is thin.',
    source: 'Bister et al. (2000), 75th percentile of North American carp (published source)',
    compute: (values) => {
      const fish = { lengthCm: values.number('lengthCm'), massG: values.number('massG') };
      return [
        worked('Ws', 'Standard mass', carpStandardMassG(fish), 'g', 0),
        worked('Wr', 'Mass over standard', relativeMassShare(fish)),
      ];
    },
  },
  {
    id: 'fish-growth',
    field: 'fish',
    title: 'How long a fish will be',
    usedFor: 'What the stock of today becomes in three years.',
    equations: ['L(t) = Lmax (1 − e^(−k t))', 'L2 = Lmax − (Lmax − L1) e^(−k t)'],
    inputs: [
      { ...SPECIES, choices: SPECIES.choices.filter(({ value }) => value !== 'other-fish') },
      asked('lengthCm', 'L1', 'Length now', 'cm', [1, 120, 25]),
      asked('years', 't', 'Years', 'a', [0, 70, 3]),
    ],
    symbols: [
      { symbol: 'Lmax', meaning: 'Koi; goldfish', unit: 'cm', value: '75; 48' },
      { symbol: 'k', meaning: 'Koi; goldfish', unit: '1/a', value: '0.30; 0.245' },
    ],
    validity:
      'Well kept fish; a longer fish stays as it is. Single fish differ by a third. Turtles and other fish are not grown.',
    source:
      "von Bertalanffy's equation; koi common practice, within 5 % of a breeder's marks at 2, 10 and 14 years; goldfish derived from the AmP collection",
    compute: (values) => {
      const species = values.choice('species') === 'goldfish' ? ('goldfish' as const) : ('koi' as const);
      const years = values.number('years');
      return [
        worked('L2', 'Length then', lengthAfterCm({ species, lengthCm: values.number('lengthCm'), years }), 'cm', 1),
        worked('L(t)', 'Length of a fish of that age', lengthAtAgeCm({ species, ageYears: years }), 'cm', 1),
      ];
    },
  },
  {
    id: 'fish-growth-by-temperature',
    field: 'fish',
    title: 'When in the year fish grow',
    usedFor: "Sharing a year's growth out over its days.",
    equations: ['G(T): on lines between 0.71 at 12 °C, 2.31 at 18, 3.12 at 24 and 3.32 at 30 °C'],
    inputs: [WATER],
    symbols: [],
    validity:
      'Young, fully fed carp at 12 to 30 °C. Colder it follows the line to nothing at 9.3 °C, warmer it stays level; both are marked as not measured.',
    source: 'Goolish & Adelman (1984), Aquaculture 36, 27-35 (published source)',
    caution: 'Oyugi et al. (2012) find the best water at 20 to 24 °C and less growth at 28.',
    compute: (values) => {
      const growth = greatestGrowth({ temperatureC: values.number('temperatureC') });
      return [
        worked('G', 'Greatest growth a day', growth.pctPerDay, '% of body mass'),
        worked('measured', 'Inside what was measured', growth.isMeasured ? 'yes' : 'no'),
      ];
    },
  },
  {
    id: 'turtle-as-koi',
    field: 'fish',
    title: 'A turtle, counted as koi',
    usedFor: 'Turtles in the live mass, the food and the load on the filter.',
    equations: ['Wk = 1 kg (S / 20 cm)³, S at most 30 cm'],
    inputs: [asked('shellLengthCm', 'S', 'Length of the shell', 'cm', [2, 40, 20])],
    symbols: [],
    validity:
      'Sliders with a shell of 2 to 40 cm. No measured waste of pond turtles was found: a factor of three either way.',
    source: 'Common practice; our own scale',
    compute: (values) => [
      worked(
        'Wk',
        'Koi that load a pond as much',
        turtleKoiEquivalentKg({ shellLengthCm: values.number('shellLengthCm') }),
        'kg',
      ),
    ],
  },
];
