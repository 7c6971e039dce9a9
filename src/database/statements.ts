import type { EntityManager } from 'typeorm';

/** Where a store sends its statements: each call asks anew, so that a store kept past its unit of work is noticed. */
export interface Statements {
  forReads(): EntityManager;
  forWrites(): EntityManager;
}

/** One open transaction. */
export class OpenUnit implements Statements {
  private hasEnded = false;

  constructor(
    readonly name: string,
    private readonly manager: EntityManager,
  ) {}

  get isOpen(): boolean {
    return !this.hasEnded;
  }

  end(): void {
    this.hasEnded = true;
  }

  forReads(): EntityManager {
    if (this.hasEnded)
      throw new Error(`The unit of work "${this.name}" has ended; something inside it was not awaited.`);
    return this.manager;
  }

  forWrites(): EntityManager {
    return this.forReads();
  }
}

/** Outside any unit of work there is only reading. */
export class CommittedRows implements Statements {
  constructor(private readonly reader: EntityManager) {}

  forReads(): EntityManager {
    return this.reader;
  }

  forWrites(): EntityManager {
    throw new Error('A row can be changed only inside a unit of work: Database.unitOfWork(name, work).');
  }
}
