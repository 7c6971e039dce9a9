import { Module } from '@nestjs/common';
import { CompaniesService } from './companies.service.js';
import { FirstAccountService } from './first-account.service.js';
import { LinksService } from './links.service.js';
import { PasswordsService } from './passwords.service.js';
import { PeopleService } from './people.service.js';
import { PlacesService } from './places.service.js';
import { SessionsService } from './sessions.service.js';

const SERVICES = [
  CompaniesService,
  FirstAccountService,
  LinksService,
  PasswordsService,
  PeopleService,
  PlacesService,
  SessionsService,
];

@Module({ providers: SERVICES, exports: SERVICES })
export class AccountsModule {}
