export { JobRunEntity } from './job-run.entity.js';
export { JobsModule } from './jobs.module.js';
export { type Firing, type JobHandler, JobsService } from './jobs.service.js';
