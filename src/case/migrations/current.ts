import { toVersion2 } from './0002-course.ts';
import { checkMigrations, type Migration } from './migrate.ts';

/** The version of case files written today. */
export const CASE_FILE_VERSION = 2;

/** Every step from version 1 to today's, in order. */
export const MIGRATIONS: readonly Migration[] = [toVersion2];

checkMigrations(MIGRATIONS, CASE_FILE_VERSION);
