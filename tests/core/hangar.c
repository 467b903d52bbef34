/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What people do in the hangar of the worked days, one helper an act, and what is
 * expected afterwards.  The limits and instruments stand in hangar-registers.c.
 */
#include "hangar.h"

static const char *const people[] = { "p-okafor", "p-lind", "p-sato" };

static void
adopt (Hangar *h, BondAdoptKind what, gpointer object)
{
  hangar_record (h, bond_entry_adopt_new (what, object));
}

Hangar *
hangar_new_bare (void)
{
  Hangar *h = g_new0 (Hangar, 1);

  h->source = bond_source_new_fixed ("2026-11-24T09:58:00+01:00", 1, 1);
  h->survey = bond_survey_new ("6f0c", h->source);
  h->unit = BOND_UNIT_MILLIOHM;
  bond_survey_begin_sitting (h->survey, "s-1");
  bond_survey_set_person (h->survey, "p-okafor");
  hangar_take (h, "MO-1", "30m");
  return h;
}

void
hangar_furnish (Hangar *h, BondRule rule, BondHouse *house)
{
  g_autoptr (BondLimitSet) set = hangar_make_limits ();
  g_autoptr (BondInstrument) megohmmeter = hangar_make_megohmmeter ();
  BondEntry *create = bond_entry_new (BOND_ENTRY_CREATE);
  BondInstrument *meter;
  guint i;

  create->create.aircraft_type = g_strdup ("generic-twin-jet");
  create->create.serial = g_strdup ("0042");
  create->create.registration = g_strdup ("ZZ-AAA");
  create->create.rule = rule;
  create->create.invented = TRUE;
  hangar_record (h, create);
  adopt (h, BOND_ADOPT_LIMIT_SET, set);
  for (meter = hangar_make_milliohmmeter (i = 0); meter != NULL; meter = hangar_make_milliohmmeter (++i))
    {
      adopt (h, BOND_ADOPT_INSTRUMENT, meter);
      bond_instrument_unref (meter);
    }
  adopt (h, BOND_ADOPT_INSTRUMENT, megohmmeter);
  for (i = 0; i < G_N_ELEMENTS (people); i++)
    {
      g_autoptr (BondPerson) person = bond_person_new (people[i], 1, people[i] + 2, NULL, NULL);
      adopt (h, BOND_ADOPT_PERSON, person);
    }
  if (house != NULL)
    adopt (h, BOND_ADOPT_HOUSE, house);
}

Hangar *
hangar_new (BondRule rule)
{
  Hangar *h = hangar_new_bare ();

  hangar_furnish (h, rule, NULL);
  return h;
}

void
hangar_free (Hangar *h)
{
  g_object_unref (h->survey);
  bond_source_unref (h->source);
  g_free (h);
}

void
hangar_take (Hangar *h, const char *instrument, const char *range)
{
  h->instrument = instrument;
  h->range = range;
}

BondEntry *
hangar_record (Hangar *h, BondEntry *entry)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *entries = bond_survey_get_entries (h->survey);

  bond_survey_record_now (h->survey, entry, &error);
  g_assert_no_error (error);
  return g_ptr_array_index (entries, entries->len - 1);
}

void
hangar_refused (Hangar *h, BondEntry *entry, BondSurveyError code)
{
  g_autoptr (GError) error = NULL;
  guint before = bond_survey_get_entries (h->survey)->len;

  g_assert_false (bond_survey_record_now (h->survey, entry, &error));
  g_assert_error (error, BOND_SURVEY_ERROR, (int)code);
  g_assert_cmpuint (strlen (error->message), >, 20);
  g_assert_cmpuint (bond_survey_get_entries (h->survey)->len, ==, before);
}

static BondClass
class_of (const char *number)
{
  const char *hyphen = strchr (number, '-');
  int klass;

  for (klass = 0; hyphen != NULL && klass < BOND_N_CLASSES; klass++)
    if (bond_class_letter (klass) == hyphen[1])
      return (BondClass)klass;
  return BOND_CLASS_STRUCTURE;
}

BondPointSpec *
hangar_spec (const char *number, const char *row)
{
  g_autofree char *id = g_strconcat ("q-", number, NULL);
  g_autofree char *zone = g_strndup (number, 3);
  BondPointSpec *spec = bond_point_spec_new (id, number, class_of (number), zone);

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("hinge");
  spec->to = g_strdup ("spar");
  spec->limit = row != NULL ? g_strconcat ("example/", row, NULL) : NULL;
  spec->from_template = TRUE;
  return spec;
}

BondEntry *
hangar_point_entry (const char *number, const char *row, gboolean from_template)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

  entry->spec = hangar_spec (number, row);
  entry->spec->from_template = from_template;
  entry->point = g_strdup (entry->spec->id);
  return entry;
}

BondPoint *
hangar_point_as (Hangar *h, const char *number, const char *row, BondCondition condition)
{
  BondEntry *entry = hangar_point_entry (number, row, TRUE);

  entry->spec->condition = condition;
  hangar_record (h, entry);
  return hangar_find (h, number);
}

BondPoint *
hangar_point (Hangar *h, const char *number, const char *row)
{
  return hangar_point_as (h, number, row, BOND_CONDITION_UNDISTURBED);
}

/* A set that had Z9 when the point was placed and has it no more: only so can a name come to hold nothing. */
void
hangar_point_unresolved (Hangar *h, const char *number, const char *names)
{
  BondLimitRow *row = bond_limit_row_new ();
  int revision;

  row->code = g_strdup ("Z9");
  row->klass = BOND_CLASS_STRUCTURE;
  row->document = g_strdup ("Example manual 20-51");
  row->in_service.upper = (BondBound){ BOND_RELATION_LE, UOHM (9000), BOND_UNIT_MILLIOHM };
  for (revision = 8; revision <= 9; revision++)
    {
      g_autoptr (BondLimitSet) set = hangar_make_limits ();
      g_autoptr (GError) error = NULL;

      set->revision = revision;
      if (revision == 8)
        bond_limit_set_add (set, row, &error);
      g_assert_no_error (error);
      hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_LIMIT_SET, set));
      if (revision == 8)
        hangar_point (h, number, names);
    }
}

void
hangar_add_place (Hangar *h, const char *number, const char *place, gboolean in_sample)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_PLACE, number);

  g_free (entry->place);
  entry->place = g_strdup (place);
  entry->place_spec.label = g_strdup (place);
  entry->place_spec.in_sample = in_sample;
  hangar_record (h, entry);
}

BondPoint *
hangar_find (Hangar *h, const char *number)
{
  BondPoint *point = bond_survey_find_number (h->survey, number);

  g_assert_nonnull (point);
  return point;
}

BondEntry *
hangar_entry (Hangar *h, BondEntryKind kind, const char *number)
{
  BondEntry *entry = bond_entry_new (kind);

  entry->point = g_strdup (bond_point_get_id (hangar_find (h, number)));
  entry->place = g_strdup (h->place);
  return entry;
}

static void
parse (Hangar *h, const char *text, BondReadingText *parsed)
{
  const BondInstrument *instrument
      = h->instrument != NULL ? bond_survey_find_instrument (h->survey, h->instrument) : NULL;
  const BondRange *range = instrument != NULL ? bond_instrument_find_range (instrument, h->range) : NULL;
  BondNumberFormat format = { .mark = '.' };
  g_autoptr (GError) error = NULL;

  bond_reading_text_parse (text, h->unit, &format, range != NULL ? range->end : 0, range != NULL ? range->step : 0,
                           parsed, &error);
  g_assert_no_error (error);
}

static BondEntry *
make_reading (Hangar *h, const char *number, const BondTypedValue *value, BondDirection direction, const BondEntry *of)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_READING, number);

  bond_reading_set_typed (&entry->reading, value);
  entry->reading.direction = direction;
  entry->reading.of = of != NULL ? g_strdup (of->id) : NULL;
  entry->reading.instrument = g_strdup (h->instrument);
  entry->reading.range = g_strdup (h->range);
  entry->reading.connectors = h->connectors;
  entry->reading.mounting = h->mounting;
  entry->reading.confirmed = h->confirmed;
  entry->reading.reference_end = g_strdup (h->reference_end);
  entry->reading.via = g_strdup ("typed");
  return entry;
}

BondEntry *
hangar_reading (Hangar *h, const char *number, const char *text, BondDirection direction, const BondEntry *of)
{
  BondReadingText parsed = { 0 };
  BondEntry *entry;

  parse (h, text, &parsed);
  g_assert_cmpint (parsed.n_values, ==, 1);
  entry = make_reading (h, number, &parsed.value[0], direction, of);
  bond_reading_text_clear (&parsed);
  return entry;
}

BondEntry *
hangar_read_pair_of (Hangar *h, const char *number, const char *text, const BondEntry *first)
{
  BondReadingText parsed = { 0 };
  BondEntry *entry;

  parse (h, text, &parsed);
  entry = make_reading (h, number, &parsed.value[0], BOND_DIRECTION_FORWARD, first);
  entry->reading.planned = parsed.n_values;
  entry = hangar_record (h, entry);
  if (parsed.n_values == 2)
    entry = hangar_record (
        h, make_reading (h, number, &parsed.value[1], BOND_DIRECTION_REVERSE, first != NULL ? first : entry));
  bond_reading_text_clear (&parsed);
  return entry;
}

BondEntry *
hangar_read (Hangar *h, const char *number, const char *text)
{
  return hangar_read_pair_of (h, number, text, NULL);
}

void
hangar_read_planned (Hangar *h, const char *number, const char *const *texts, int n)
{
  BondEntry *first = NULL;
  int i;

  for (i = 0; i < n; i++)
    {
      BondEntry *entry
          = hangar_reading (h, number, texts[i], i == 0 ? BOND_DIRECTION_FORWARD : BOND_DIRECTION_REPEAT, first);
      entry->reading.planned = n;
      entry = hangar_record (h, entry);
      if (first == NULL)
        first = entry;
    }
}

void
hangar_rework (Hangar *h, const char *number, guint done)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_REWORK, number);

  entry->rework.done = done;
  entry->rework.reference = g_strdup ("N-101");
  hangar_record (h, entry);
}

void
hangar_condition (Hangar *h, const char *number, BondCondition condition)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_CONDITION, number);

  entry->condition.condition = condition;
  entry->condition.reference = g_strdup ("A-7");
  hangar_record (h, entry);
}

BondEntry *
hangar_visual (Hangar *h, const char *number, BondVisualFinding finding, gboolean reject)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_VISUAL, number);

  entry->visual.finding = finding;
  entry->visual.reject = reject;
  return hangar_record (h, entry);
}

void
hangar_mark (Hangar *h, const char *number, BondPointMark mark, const char *reason)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_STATE, number);

  entry->state.mark = mark;
  entry->reason = g_strdup (reason);
  hangar_record (h, entry);
}

static BondEntry *
take_back (const BondEntry *target, BondVoidReason why, const char *reason)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_TAKE_BACK);

  g_assert_nonnull (target);
  entry->ref = g_strdup (target->id);
  entry->take_back.why = why;
  entry->reason = g_strdup (reason);
  return entry;
}

BondEntry *
hangar_undo_entry (Hangar *h, const BondEntry *target, BondVoidReason why, const char *reason)
{
  return take_back (target, why, reason);
}

BondEntry *
hangar_undo (Hangar *h, BondVoidReason why, const char *reason)
{
  return hangar_record (h, take_back (bond_survey_undo_target (h->survey), why, reason));
}

BondEntry *
hangar_redo (Hangar *h)
{
  return hangar_record (h, take_back (bond_survey_redo_target (h->survey), BOND_VOID_NONE, NULL));
}

static BondEntry *
act_on (const BondEntry *target, BondEntryKind kind)
{
  BondEntry *entry = bond_entry_new (kind);

  entry->point = g_strdup (target->point);
  entry->place = g_strdup (target->place);
  entry->ref = g_strdup (target->id);
  return entry;
}

BondEntry *
hangar_void (Hangar *h, const BondEntry *target, BondVoidReason why, const char *reason)
{
  BondEntry *entry = act_on (target, BOND_ENTRY_VOID);

  entry->voided.why = why;
  entry->reason = g_strdup (reason);
  return entry;
}

BondEntry *
hangar_correct (Hangar *h, const BondEntry *target, const char *text, BondVoidReason why)
{
  BondEntry *entry = act_on (target, BOND_ENTRY_CORRECT);
  BondReadingText parsed = { 0 };

  parse (h, text, &parsed);
  bond_reading_copy (&entry->correct.reading, bond_entry_get_reading (target));
  g_clear_pointer (&entry->correct.reading.said, g_free);
  bond_reading_set_typed (&entry->correct.reading, &parsed.value[0]);
  entry->correct.why = why;
  bond_reading_text_clear (&parsed);
  return entry;
}

BondEntry *
hangar_move (Hangar *h, const BondEntry *target, const char *to)
{
  BondEntry *entry = act_on (target, BOND_ENTRY_MOVE);

  entry->move.to_point = g_strdup (bond_point_get_id (hangar_find (h, to)));
  entry->move.to_place = g_strdup (h->place);
  entry->move.why = BOND_VOID_WRONG_POINT;
  return entry;
}

const BondPlaceResult *
hangar_result (Hangar *h, const char *number)
{
  const BondPlaceResult *result = bond_point_get_place (hangar_find (h, number), h->place);

  g_assert_nonnull (result);
  return result;
}

void
hangar_expect_state (Hangar *h, const char *number, BondState state)
{
  g_autofree char *is = g_strdup_printf ("%s: %s", number, bond_state_file_name (hangar_result (h, number)->state));
  g_autofree char *should = g_strdup_printf ("%s: %s", number, bond_state_file_name (state));

  g_assert_cmpstr (is, ==, should);
}

void
hangar_expect_value (Hangar *h, const char *number, BondOhm nohm)
{
  const BondMeasurement *m = hangar_result (h, number)->decides;

  g_assert_nonnull (m);
  g_assert_cmpint ((gint64)m->mean.sum, ==, nohm * m->mean.count);
}

void
hangar_expect_last (Hangar *h, const char *number, BondOutcome outcome, BondReason reason)
{
  const BondMeasurement *m = hangar_result (h, number)->last;

  g_assert_nonnull (m);
  g_assert_cmpint (m->outcome, ==, outcome);
  g_assert_cmpint (m->reason, ==, reason);
}

void
hangar_expect_tier (Hangar *h, const char *number, BondCondition condition, BondOhm upper)
{
  const BondPlaceResult *result = hangar_result (h, number);

  g_assert_cmpint (result->tier, ==, condition);
  g_assert_nonnull (result->bounds);
  g_assert_cmpint (result->bounds->upper.nohm, ==, upper);
}

gint64
hangar_used_permille (Hangar *h, const char *number)
{
  const BondMeasurement *m = hangar_result (h, number)->last;

  return bond_bounds_used_permille (bond_limit_row_bounds (m->row, m->condition), &m->mean);
}

static void
dump_measurement (GString *out, const BondMeasurement *m)
{
  guint i;

  if (m == NULL)
    {
      g_string_append (out, " -");
      return;
    }
  g_string_append_printf (out, " [%s %s r%d q%d %" G_GINT64_FORMAT "/%d u%" G_GINT64_FORMAT " c%d", m->id,
                          bond_measurement_said (m), m->reason, m->qualifier, (gint64)m->mean.sum, m->mean.count,
                          m->budget.u_nohm, m->condition);
  for (i = 0; i < m->readings->len; i++)
    g_string_append_printf (out, " %s", ((BondEntry *)m->readings->pdata[i])->id);
  g_string_append_c (out, ']');
}

static void
dump_place (GString *out, const BondPlaceResult *r)
{
  guint i;

  g_string_append_printf (out,
                          "  %s %s conforms%d u%d vis%d/%d held%d int%d sample%d tier%d re%d rej%d,%d,%d,%d,%d tb%d "
                          "seen%d\n",
                          r->place != NULL ? r->place : "-", bond_state_file_name (r->state), r->conforms, r->within_u,
                          r->visual_reject, r->visual, r->held, r->intermittent, r->in_sample, r->tier, r->reseats,
                          r->rejects_as_found, r->rejects_installation, r->rejects_opened, r->rejects_rework,
                          r->rejects_visual, r->over_limit_taken_back, r->seen_not_recorded);
  dump_measurement (out, r->found);
  dump_measurement (out, r->decides);
  dump_measurement (out, r->last);
  for (i = 0; i < r->history->len; i++)
    {
      const BondHistoryItem *item = r->history->pdata[i];
      g_string_append_printf (out, "\n   %s p%d t%d v%d m%d", item->entry->id, item->phase, item->taken_back,
                              item->voided, item->moved_away);
      dump_measurement (out, item->measurement);
    }
  g_string_append_c (out, '\n');
}

char *
hangar_dump (BondSurvey *survey)
{
  GString *out = g_string_new (NULL);
  guint i, j;
  BondTotals t;

  for (i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (survey)); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      GPtrArray *places = bond_point_get_places (point);
      g_string_append_printf (
          out, "%s %s row %s history%d att%u pos%u\n", bond_point_get_id (point), bond_point_get_number (point),
          bond_point_get_row (point) != NULL ? bond_point_get_row (point)->code : "-", bond_point_has_history (point),
          bond_point_get_attachments (point)->len, bond_survey_position (survey, point));
      g_string_append_printf (out, " notes%u defect %s bare %s hazards%u\n", bond_point_get_notes (point)->len,
                              bond_point_get_defect (point), bond_point_bare_since (point),
                              bond_point_get_hazards (point));
      for (j = 0; j < places->len; j++)
        dump_place (out, places->pdata[j]);
    }
  for (i = 0; i < bond_survey_get_permits (survey)->len; i++)
    g_string_append_printf (out, "permit %s\n", ((BondEntry *)bond_survey_get_permits (survey)->pdata[i])->id);
  bond_survey_totals (survey, &t);
  g_string_append_printf (out, "totals %d %d %d %d %d %d %d %" G_GINT64_FORMAT "\n", t.points, t.scope, t.measured,
                          t.conform, t.fail, t.open, t.over_limit_taken_back, (gint64)t.control_total_nohm);
  return g_string_free (out, FALSE);
}
