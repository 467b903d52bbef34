/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * bondwright-batch: the window's work without a display.  It reads file + journal,
 * never changes a survey, and says by its exit status whether all conforms.  One
 * row of the table below is one command; what it computes is in core and report.
 *
 * No locale is set here: tables are for other programs and always use '.'.
 */
#include "report/place-cells.h"
#include "report/report.h"
#include "store/register-file.h"
#include "store/survey-file.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef enum
{
  EXIT_CONFORMS = 0,
  EXIT_DOES_NOT_CONFORM = 1, /* done, and something does not conform or is open */
  EXIT_USAGE = 2,
  EXIT_FILE = 3, /* a file cannot be used; nothing was written for it */
} ExitStatus;

typedef struct
{
  char **files;
  char *output;
  char *paper;
  char *printed;
} Options;

typedef struct
{
  const char *name;
  const char *arguments;
  const char *summary;
  gboolean one_file;
  gboolean writes; /* has the options of a written document */
  ExitStatus (*run) (const Options *options);
} Command;

#define JUDGE_HEADER                                                                                                   \
  "survey\tpoint\tplace\tclass\tzone\trow\ttier\tstate\tverdict\tconforms\tfound_ohm\tresult_ohm\tU_ohm\tlimit\t"      \
  "used_percent"

/* --- messages and files --- */

/* Straight UTF-8: g_print() would turn a file's name into escapes where no locale is set. */
static void
say_error (const char *text)
{
  fprintf (stderr, "%s\n", text);
}

static ExitStatus
usage_error (const char *text)
{
  say_error (text);
  say_error (_ ("“bondwright-batch --help” lists the commands."));
  return EXIT_USAGE;
}

static void
print_problems (FILE *stream, GPtrArray *problems)
{
  for (guint i = 0; i < problems->len; i++)
    {
      g_autofree char *text = bond_problem_to_string (problems->pdata[i]);
      fprintf (stream, "%s\n", text);
    }
}

/* A broken or unsound survey opens in the window, for looking at or mending; figures from it must not leave this
 * program. */
static BondSurveyFile *
open_survey (const char *path)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file = bond_survey_file_open (path, BOND_OPEN_READ, source, "batch", problems, &error);

  print_problems (stderr, problems);
  if (file == NULL && problems->len == 0)
    say_error (error->message);
  if (file != NULL && !bond_survey_file_is_sound (file))
    g_clear_object (&file);
  return file;
}

/* --- judge --- */

/* A cell never breaks the table: whatever would end it becomes a space. */
static void
add_cell (GString *line, const char *text)
{
  if (line->len > 0)
    g_string_append_c (line, '\t');
  for (const char *c = text != NULL ? text : ""; *c != '\0'; c++)
    g_string_append_c (line, g_ascii_iscntrl (*c) ? ' ' : *c);
}

/* The result of one limit row at one place. */
static void
print_row (BondSurvey *survey, BondPoint *point, const BondPlaceResult *result)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  const BondLimitRow *row = result->row;
  const BondBounds *bounds = row != NULL ? bond_limit_row_bounds (row, bond_cell_tier (result)) : NULL;
  gboolean has_verdict = result->decides != NULL && result->decides->outcome == BOND_OUTCOME_JUDGED;
  g_autofree char *name = bond_cell_row (result);
  g_autofree char *found = bond_cell_ohm (result->found);
  g_autofree char *value = bond_cell_ohm (result->decides);
  g_autofree char *u = bond_cell_u_ohm (result->decides);
  g_autofree char *limit = bounds != NULL ? bond_bounds_to_file (bounds) : NULL;
  g_autofree char *used = bond_cell_used_percent (bounds, result->decides);
  g_autoptr (GString) line = g_string_new (NULL);

  add_cell (line, bond_survey_get_id (survey));
  add_cell (line, spec->number);
  add_cell (line, result->place != NULL ? result->label : NULL);
  add_cell (line, bond_class_file_name (spec->klass));
  add_cell (line, spec->zone);
  add_cell (line, name);
  add_cell (line, bond_condition_file_name (bond_cell_tier (result)));
  add_cell (line, bond_state_file_name (result->state));
  add_cell (line, bond_cell_verdict (survey, result));
  add_cell (line, has_verdict || result->visual_reject ? (result->conforms ? "yes" : "no") : NULL);
  add_cell (line, found);
  add_cell (line, value);
  add_cell (line, u);
  add_cell (line, limit);
  add_cell (line, used);
  puts (line->str);
}

/* The row that governs comes first. */
static void
print_place (BondSurvey *survey, BondPoint *point, const BondPlaceResult *result)
{
  for (guint i = 0; i < bond_place_result_n_rows (result); i++)
    print_row (survey, point, bond_place_result_nth_row (result, i));
}

static void
print_survey (BondSurvey *survey)
{
  guint n_points = g_list_model_get_n_items (G_LIST_MODEL (survey));
  for (guint i = 0; i < n_points; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      GPtrArray *places = bond_point_get_places (point);
      for (guint j = 0; j < places->len; j++)
        print_place (survey, point, places->pdata[j]);
    }
}

static void
add_totals (BondTotals *sum, const BondTotals *one)
{
  sum->points += one->points;
  sum->scope += one->scope;
  sum->measured += one->measured;
  sum->conform += one->conform;
  sum->fail += one->fail;
  sum->suspect += one->suspect;
  sum->open += one->open;
}

/* Points recorded without a limit, or left out of the sample, have nothing to conform to. */
static gboolean
all_conform (const BondTotals *totals)
{
  int without_verdict = totals->by_state[BOND_STATE_RECORDED] + totals->by_state[BOND_STATE_NOT_IN_SAMPLE];
  return totals->open == 0 && totals->fail == 0 && totals->suspect == 0
         && totals->conform + without_verdict >= totals->scope;
}

static ExitStatus
conform_status (BondSurvey *survey, BondTotals *totals)
{
  bond_survey_totals (survey, totals);
  return all_conform (totals) ? EXIT_CONFORMS : EXIT_DOES_NOT_CONFORM;
}

static ExitStatus
run_judge (const Options *options)
{
  BondTotals sum = { 0 };
  ExitStatus status = EXIT_CONFORMS;

  puts (JUDGE_HEADER);
  for (char **path = options->files; *path != NULL; path++)
    {
      g_autoptr (BondSurveyFile) file = open_survey (*path);
      BondTotals one = { 0 };
      if (file == NULL)
        {
          status = EXIT_FILE;
          continue;
        }
      print_survey (bond_survey_file_get_survey (file));
      status = MAX (status, conform_status (bond_survey_file_get_survey (file), &one));
      add_totals (&sum, &one);
    }
  printf ("# points=%d scope=%d measured=%d conform=%d fail=%d suspect=%d open=%d\n", sum.points, sum.scope,
          sum.measured, sum.conform, sum.fail, sum.suspect, sum.open);
  return status;
}

/* --- report --- */

/* The time printed on the report: the option, else SOURCE_DATE_EPOCH, else now. NULL: not a time. */
static char *
printed_time (const char *option)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) when = NULL;
  guint64 seconds;

  if (option != NULL)
    {
      when = g_date_time_new_from_iso8601 (option, NULL);
      return when != NULL ? g_strdup (option) : NULL;
    }
  if (epoch != NULL && *epoch != '\0')
    {
      if (g_ascii_string_to_unsigned (epoch, 10, 0, G_MAXINT32, &seconds, NULL))
        when = g_date_time_new_from_unix_utc ((gint64)seconds);
      return when != NULL ? g_date_time_format (when, "%Y-%m-%dT%H:%M:%S+00:00") : NULL;
    }
  {
    g_autoptr (BondSource) source = bond_source_new_system ();
    return bond_source_now (source);
  }
}

/* Writing the report over the survey it was made from would lose the survey. */
static gboolean
is_same_file (const char *a, const char *b)
{
  g_autoptr (GFile) first = g_file_new_for_path (a);
  g_autoptr (GFile) second = g_file_new_for_path (b);
  g_autoptr (GFileInfo) one = g_file_query_info (first, G_FILE_ATTRIBUTE_ID_FILE, G_FILE_QUERY_INFO_NONE, NULL, NULL);
  g_autoptr (GFileInfo) two = g_file_query_info (second, G_FILE_ATTRIBUTE_ID_FILE, G_FILE_QUERY_INFO_NONE, NULL, NULL);
  return one != NULL && two != NULL
         && g_strcmp0 (g_file_info_get_attribute_string (one, G_FILE_ATTRIBUTE_ID_FILE),
                       g_file_info_get_attribute_string (two, G_FILE_ATTRIBUTE_ID_FILE))
                == 0;
}

/* The name tells surveys, their journals and backups: under each of them lie readings somebody took. */
static gboolean
is_survey_name (const char *path)
{
  static const char *const endings[] = { ".bondsurvey", ".journal", ".backup", ".attachment" };
  g_autofree char *name = g_path_get_basename (path);

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (name, endings[i]))
      return TRUE;
  return strstr (name, ".bondsurvey.") != NULL;
}

/* Also by another name, through a link. */
static gboolean
would_destroy (const char *survey, const char *output)
{
  g_autofree char *journal = g_strconcat (survey, ".journal", NULL);
  g_autofree char *real = realpath (output, NULL);

  return is_survey_name (output) || (real != NULL && is_survey_name (real)) || is_same_file (survey, output)
         || is_same_file (journal, output);
}

/* GLib names the temporary file it tried first; who reads this looks for @output. */
static void
explain_write (const char *output, const GError *cause, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (output);
  const char *advice = !g_file_test (folder, G_FILE_TEST_IS_DIR)
                           ? _ ("There is no such folder: make it, or choose another name.")
                       : g_file_test (output, G_FILE_TEST_IS_DIR) ? _ ("That is a folder: name a file in it.")
                       : g_error_matches (cause, G_FILE_ERROR, G_FILE_ERROR_NOSPC)
                           ? _ ("The disk is full: free some space, or choose another place.")
                           : _ ("See whether you may write there and the disk is in order, or choose another place.");

  g_set_error (error, cause->domain, cause->code, _ ("The report was not written to %s. %s The survey is untouched."),
               output, advice);
}

static gboolean
write_report (BondSurvey *survey, const BondReportOptions *report, const char *output, GError **error)
{
  g_autoptr (GBytes) pdf = bond_report_pdf (survey, report, error);
  g_autoptr (GError) cause = NULL;

  if (pdf == NULL)
    return FALSE;
  if (g_file_set_contents_full (output, g_bytes_get_data (pdf, NULL), (gssize)g_bytes_get_size (pdf),
                                G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666, &cause))
    return TRUE;
  explain_write (output, cause, error);
  return FALSE;
}

static ExitStatus
run_report (const Options *options)
{
  g_autofree char *printed = printed_time (options->printed);
  BondReportOptions report = { .paper = BOND_PAPER_A4, .printed = printed };
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  BondTotals totals;

  if (options->output == NULL)
    return usage_error (_ ("Say with -o where the report goes."));
  if (options->paper != NULL && !bond_paper_parse (options->paper, &report.paper))
    return usage_error (_ ("The paper is a4 or letter."));
  if (printed == NULL)
    return usage_error (_ ("The time printed on the report is written like 2026-11-24T09:58:00+01:00."));
  if (would_destroy (options->files[0], options->output))
    return usage_error (_ ("The report would replace a survey, its journal or its backup. Choose another name."));
  file = open_survey (options->files[0]);
  if (file == NULL)
    return EXIT_FILE;
  if (!write_report (bond_survey_file_get_survey (file), &report, options->output, &error))
    {
      say_error (error->message);
      return EXIT_FILE;
    }
  return conform_status (bond_survey_file_get_survey (file), &totals);
}

/* --- validate --- */

static gboolean
is_survey (const char *path)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  xmlDoc *document = bond_xml_read_file (path, "survey", problems, NULL);
  gboolean found = document != NULL;
  if (document != NULL)
    xmlFreeDoc (document);
  return found;
}

static gboolean
validate_register (const char *path, GPtrArray *problems)
{
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;
  gpointer object = bond_register_load (path, &what, problems, &error);

  if (object != NULL)
    bond_register_unref (what, object);
  else if (problems->len == 0)
    g_ptr_array_add (problems, bond_problem_new (path, 0, "%s", error->message));
  return problems->len == 0;
}

static ExitStatus
run_validate (const Options *options)
{
  ExitStatus status = EXIT_CONFORMS;
  for (char **path = options->files; *path != NULL; path++)
    {
      g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
      gboolean good = g_str_has_suffix (*path, ".bondsurvey") || is_survey (*path)
                          ? bond_survey_file_validate (*path, problems)
                          : validate_register (*path, problems);
      print_problems (stdout, problems);
      if (!good)
        status = EXIT_FILE;
    }
  return status;
}

/* --- the command line --- */

static const Command commands[] = {
  { "judge", "FILE...", N_ ("judge every point, in walking order, as a tab-separated table"), FALSE, FALSE, run_judge },
  { "report", "FILE -o OUT.pdf", N_ ("write the printable report"), TRUE, TRUE, run_report },
  { "validate", "FILE...", N_ ("check any Bondwright file; prints FILE:LINE: message"), FALSE, FALSE, run_validate },
};

static void
print_help (FILE *stream)
{
  fprintf (stream, "%s\n", _ ("Usage: bondwright-batch COMMAND [OPTION…] FILE…"));
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    fprintf (stream, "  %-9s %-16s %s\n", commands[i].name, commands[i].arguments, _ (commands[i].summary));
  fprintf (stream, "%s\n",
           _ ("Exit status: 0 all conform, 1 something does not conform or is open, 2 wrong usage, 3 a file cannot be "
              "used.\n“bondwright-batch COMMAND --help” lists the options of a command."));
}

static const Command *
find_command (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i].name, name))
      return &commands[i];
  return NULL;
}

static void
options_clear (Options *options)
{
  g_strfreev (options->files);
  g_free (options->output);
  g_free (options->paper);
  g_free (options->printed);
}

static gboolean
parse_options (const Command *command, Options *options, int *argc, char ***argv, GError **error)
{
  const GOptionEntry written[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &options->output, N_ ("Where the document goes"), "OUT" },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &options->paper, N_ ("Paper size: a4 or letter"), "SIZE" },
    { "printed", 0, 0, G_OPTION_ARG_STRING, &options->printed,
      N_ ("Time printed on it (else SOURCE_DATE_EPOCH, else now)"), "TIME" },
    { 0 },
  };
  const GOptionEntry files[] = {
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options->files, NULL, command->arguments },
    { 0 },
  };
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);

  g_option_context_set_summary (context, _ (command->summary));
  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, files, GETTEXT_PACKAGE);
  if (command->writes)
    g_option_context_add_main_entries (context, written, GETTEXT_PACKAGE);
  return g_option_context_parse (context, argc, argv, error);
}

static ExitStatus
run_command (const Command *command, int argc, char **argv)
{
  Options options = { 0 };
  g_autoptr (GError) error = NULL;
  ExitStatus status;

  if (!parse_options (command, &options, &argc, &argv, &error))
    status = usage_error (error->message);
  else if (options.files == NULL)
    status = usage_error (_ ("No file was named."));
  else if (command->one_file && options.files[1] != NULL)
    status = usage_error (_ ("This command takes one file at a time."));
  else
    status = command->run (&options);
  options_clear (&options);
  return status;
}

int
main (int argc, char **argv)
{
  const Command *command;
  ExitStatus status;

  g_set_prgname ("bondwright-batch");
  if (argc < 2)
    return usage_error (_ ("No command was given."));
  if (g_str_equal (argv[1], "--help") || g_str_equal (argv[1], "-h"))
    {
      print_help (stdout);
      return EXIT_CONFORMS;
    }
  if (g_str_equal (argv[1], "--version"))
    {
      puts ("bondwright-batch " BOND_VERSION);
      return EXIT_CONFORMS;
    }
  command = find_command (argv[1]);
  if (command == NULL)
    return usage_error (_ ("There is no such command."));
  bond_xml_init ();
  status = run_command (command, argc - 1, argv + 1);
  /* A table cut short by a full disk must not look like a whole one. */
  if (fflush (stdout) != 0 || ferror (stdout))
    {
      say_error (_ ("The output could not be written in full."));
      return EXIT_FILE;
    }
  return status;
}
