/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A small invented survey for the store's tests: one limit row, one meter, one
 * person, points placed by hand, and readings as many as asked for.
 */
#pragma once

#include "store/survey-file.h"

/** Sample: a folder of its own, removed at the end; a fixed clock and ids. */
typedef struct
{
  char *folder;
  char *path; /* FOLDER/sample.bondsurvey; nothing is there yet */
  BondSource *source;
} Sample;

void sample_set_up (Sample *sample, gconstpointer data);
void sample_tear_down (Sample *sample, gconstpointer data);

/** sample_create: the survey with header, registers and @n_points points; synchronous. */
BondSurveyFile *sample_create (Sample *sample, int n_points);
/** sample_start: header, registers and points into a survey just created. */
void sample_start (BondSurvey *survey, int n_points);
/** sample_open: for writing, synchronous; asserts that it works. */
BondSurveyFile *sample_open (Sample *sample);
/** sample_reading: entry of a reading at the point number @i (from 1). */
BondEntry *sample_reading (int i, const char *text, BondOhm nohm);
/** sample_record: records now and asserts that it worked. */
void sample_record (BondSurveyFile *file, BondEntry *entry);
/** sample_measure: @n readings at points 1, 2 … of @n_points. */
void sample_measure (BondSurveyFile *file, int n, int n_points);
/** sample_entry_of_every_kind: records one entry of each kind the milestone has; @file has at least 3 points. */
void sample_entry_of_every_kind (BondSurveyFile *file);

/** sample_assert_valid: schema, chain, attachments and sense of the survey at @path: no problem at all. */
void sample_assert_valid (const char *path);

/* Files as bytes. */
char *sample_read (const char *path, gsize *length);
void sample_write (const char *path, const char *bytes, gsize length);
/** sample_replace: the one place where @from stands becomes @to. */
void sample_replace (const char *path, const char *from, const char *to);
gboolean sample_exists (const char *path);
