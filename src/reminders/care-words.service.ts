import { Inject, Injectable } from '@nestjs/common';
import { type CareTaskView, effectiveLatestOn } from '../care-calendar/index.js';
import { CAUTIONS, WORDINGS } from '../config/index.js';
import type { Caution } from '../core/care/caution.js';
import { taskWords } from '../core/care/explain.js';
import { en } from '../core/care/wording/en.js';
import { cautionIn, ruleIn } from '../core/care/wording/in-language.js';
import type { Wording } from '../core/care/wording/wording.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import type { UnitSystem } from '../core/units/show.js';
import type { MailCaution } from './messages/mail-content.js';
import { shortDay } from './spoken-dates.js';

/** A care task in a homeowner's words and units. */
export interface SpokenTask {
  readonly taskId: string;
  readonly title: string;
  readonly amounts: readonly string[];
  readonly cautions: readonly MailCaution[];
  readonly steps: readonly string[];
  readonly why: string;
  readonly wouldChangeIf: string;
  readonly when: string;
  readonly due: CivilDay;
  readonly latest: CivilDay;
}

/** Turns stored tasks into words: reason, amounts, cautions, steps. */
@Injectable()
export class CareWords {
  private readonly cautions: ReadonlyMap<string, Caution>;

  constructor(
    @Inject(CAUTIONS) cautions: readonly Caution[],
    @Inject(WORDINGS) private readonly wordings: ReadonlyMap<string, Wording>,
  ) {
    this.cautions = new Map(cautions.map((caution) => [caution.id, caution]));
  }

  /** In the language asked for where `config/wording/` has it, else in English. */
  spoken({ task, rule, dueOn }: CareTaskView, units: UnitSystem, language: string = en.language): SpokenTask {
    const wording = this.wordingOf(language);
    const words = taskWords({ task: task.planned, rule, audience: 'homeowner', units, wording });
    const due = civilDay(dueOn);
    const latest = civilDay(effectiveLatestOn(task));
    return {
      taskId: task.id,
      title: words.title,
      amounts: words.howMuch,
      cautions: rule.cautions.map((id) => this.caution(id, wording)),
      steps: ruleIn(rule, wording).steps,
      why: words.why,
      wouldChangeIf: words.wouldChangeIf,
      when: windowWords(due, latest),
      due,
      latest,
    };
  }

  /** `pt` answers for `pt-BR` where that has no file of its own. */
  private wordingOf(language: string): Wording {
    return this.wordings.get(language) ?? this.wordings.get(language.split('-')[0] ?? '') ?? en;
  }

  /** In English until somebody who grew up with the language has read the translation. */
  private caution(id: string, wording: Wording): MailCaution {
    const caution = this.cautions.get(id);
    if (!caution) throw new Error(`There is no caution ${id} in config/cautions.yaml.`);
    const said = cautionIn(caution, wording);
    const { firstLine, lines, defersTo } = said.isReviewed ? said : caution;
    return { first: firstLine, more: [...lines, defersTo] };
  }
}

/** "Due Fri 9 Oct, at the latest Wed 14 Oct." */
export function windowWords(due: CivilDay, latest: CivilDay): string {
  return latest > due ? `Due ${shortDay(due)}, at the latest ${shortDay(latest)}.` : `Due ${shortDay(due)}.`;
}

/** A title inside a sentence: its first letter small, unless it is an abbreviation such as "UV". */
export function inSentence(title: string): string {
  return /^[A-Z][a-z]/.test(title) ? title[0]!.toLowerCase() + title.slice(1) : title;
}
