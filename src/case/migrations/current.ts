import { toVersion2 } from './0002-course.ts';
import { toVersion3 } from './0003-fist-photographs.ts';
import { checkMigrations, type Migration } from './migrate.ts';

/** The version of case files written today. */
export const CASE_FILE_VERSION = 3;

/** Every step from version 1 to today's, in order. */
export const MIGRATIONS: readonly Migration[] = [toVersion2, toVersion3];

checkMigrations(MIGRATIONS, CASE_FILE_VERSION);
