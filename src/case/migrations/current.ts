import { checkMigrations, type Migration } from './migrate.ts';

/** The version of case files written today. */
export const CASE_FILE_VERSION = 1;

/** Every step from version 1 to today's, in order. Version 1 is the first, so there is none yet. */
export const MIGRATIONS: readonly Migration[] = [];

checkMigrations(MIGRATIONS, CASE_FILE_VERSION);
