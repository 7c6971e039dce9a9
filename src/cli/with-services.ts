import { type INestApplicationContext, type LoggerService } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { CompaniesService, type CompanyEntity } from '../accounts/index.js';
import { loadSettings, type Settings } from '../config/index.js';
import { createFoundation } from '../foundation.js';
import { servicesModule } from '../services.module.js';
import { CommandError, type Terminal } from './terminal.js';

/** The settings of a command: it never fires recurring jobs itself. */
export function settingsOf(terminal: Terminal, flags: { readonly data?: string | undefined } = {}): Settings {
  const { environment, configDirectory, workingDirectory } = terminal;
  const sources = { environment, configDirectory, workingDirectory, flags: { dataDirectory: flags.data } };
  return { ...loadSettings(sources), jobs: false };
}

/** Runs a command with the services of the product, and closes everything afterwards. */
export async function withServices<T>(
  terminal: Terminal,
  flags: { readonly data?: string | undefined },
  work: (services: INestApplicationContext) => Promise<T>,
): Promise<T> {
  const foundation = await createFoundation(settingsOf(terminal, flags));
  try {
    const services = await NestFactory.createApplicationContext(servicesModule(foundation), {
      logger: foundation.logger satisfies LoggerService,
      abortOnError: false,
    });
    try {
      return await work(services);
    } finally {
      await services.close();
    }
  } finally {
    await foundation.database.close();
  }
}

/** The company a command is for: the only one, or the one that is named. @throws CommandError */
export async function chosenCompany(
  services: INestApplicationContext,
  companyId: string | undefined,
): Promise<CompanyEntity> {
  const all = await services.get(CompaniesService, { strict: false }).all();
  const chosen = companyId === undefined ? all : all.filter((company) => company.id === companyId);
  if (chosen.length === 1) return chosen[0]!;
  const list = all.map((company) => `\n  ${company.id}  ${company.name}`).join('');
  if (all.length === 0) {
    throw new CommandError('There is no company yet. Run `tarnkeep demo`, or make the first account in the browser.');
  }
  throw new CommandError(
    companyId === undefined
      ? `There are ${all.length} companies. Name one with --company ID:${list}`
      : `--company: ${companyId} is not a company here. Known are:${list}`,
  );
}
