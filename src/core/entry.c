/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Entries as data: how one is made, shared and freed, and the fixed words for each
 * kind, reason and finding.  Which plain members a payload has is left to
 * entry-field.c, what an entry does to a survey to survey.c and judge.c, its XML to
 * the store.
 */
#include "core/entry.h"

#include "core/entry-field.h"
#include "core/measurement.h"
#include "core/word.h"

#include <glib/gi18n-lib.h>

static const BondEntryKindInfo kinds[BOND_N_ENTRY_KINDS] = {
  { "create", BOND_ENTRY_CREATE, TRUE, FALSE, FALSE },
  { "adopt", BOND_ENTRY_ADOPT, TRUE, FALSE, FALSE },
  { "point", BOND_ENTRY_POINT, TRUE, TRUE, FALSE },
  { "place", BOND_ENTRY_PLACE, TRUE, TRUE, FALSE },
  { "reading", BOND_ENTRY_READING, TRUE, TRUE, FALSE },
  { "void", BOND_ENTRY_VOID, TRUE, TRUE, TRUE },
  { "correct", BOND_ENTRY_CORRECT, TRUE, TRUE, TRUE },
  { "move", BOND_ENTRY_MOVE, TRUE, TRUE, TRUE },
  { "take-back", BOND_ENTRY_TAKE_BACK, TRUE, FALSE, TRUE },
  { "rework", BOND_ENTRY_REWORK, TRUE, TRUE, FALSE },
  { "condition", BOND_ENTRY_CONDITION, TRUE, TRUE, FALSE },
  { "state", BOND_ENTRY_STATE, TRUE, TRUE, FALSE },
  { "visual", BOND_ENTRY_VISUAL, TRUE, TRUE, FALSE },
  { "disposition", BOND_ENTRY_DISPOSITION, TRUE, TRUE, FALSE },
  { "attach", BOND_ENTRY_ATTACH, TRUE, FALSE, FALSE },
  { "seen", BOND_ENTRY_SEEN, FALSE, TRUE, FALSE },
  { "note", BOND_ENTRY_NOTE, TRUE, FALSE, FALSE },
  { "defect", BOND_ENTRY_DEFECT, TRUE, TRUE, FALSE },
  { "deviation", BOND_ENTRY_DEVIATION, TRUE, TRUE, TRUE },
  { "refinish", BOND_ENTRY_REFINISH, TRUE, TRUE, FALSE },
  { "permit", BOND_ENTRY_PERMIT, TRUE, FALSE, FALSE },
  { "close-permit", BOND_ENTRY_CLOSE_PERMIT, TRUE, FALSE, TRUE },
  { "reference", BOND_ENTRY_REFERENCE, FALSE, FALSE, FALSE },
  { "caution", BOND_ENTRY_CAUTION, FALSE, FALSE, FALSE },
  { "handover", BOND_ENTRY_HANDOVER, FALSE, FALSE, FALSE },
};

static const BondWord directions[]
    = { { "forward", N_ ("forward") }, { "reverse", N_ ("reverse") }, { "repeat", N_ ("repeat") } };

static const BondWord void_reasons[] = {
  { "none", N_ ("no reason") },
  { "wrong-point", N_ ("wrong point") },
  { "typing-slip", N_ ("typing slip") },
  { "wrong-unit", N_ ("wrong unit") },
  { "instrument-fault", N_ ("instrument fault") },
  { "other", N_ ("other") },
};

static const BondWord point_marks[] = {
  { "none", NULL },           { "not-accessible", NULL }, { "not-fitted", NULL },
  { "not-applicable", NULL }, { "not-in-sample", NULL },
};

static const BondWord dispositions[] = { { "carried-forward", NULL }, { "deferred", NULL }, { "accepted", NULL } };

/* Index: number of the bit. */
static const BondWord reworks[BOND_N_REWORK_DONE] = {
  { "surfaces-cleaned", N_ ("surfaces cleaned") },
  { "torque-restored", N_ ("torque restored") },
  { "jumper-replaced", N_ ("jumper replaced") },
  { "finish-reapplied", N_ ("finish reapplied") },
  { "other", N_ ("other work") },
};

static const BondWord findings[] = {
  { "good", N_ ("good") },
  { "corrosion", N_ ("corrosion") },
  { "paint", N_ ("paint") },
  { "loose", N_ ("loose") },
  { "strands", N_ ("broken strands") },
  { "leg-broken", N_ ("leg broken") },
  { "missing", N_ ("missing") },
  { "present", N_ ("present, must be absent") },
  { "other", N_ ("other") },
  { "sealant", N_ ("sealant") },
  { "film", N_ ("film") },
  { "nothing", N_ ("nothing found") },
};

/* Index: number of the bit. */
static const BondWord hazards[BOND_N_HAZARDS] = {
  { "fuel-vapour", N_ ("fuel vapour") },
  { "explosive-devices", N_ ("electro-explosive devices near") },
  { "composite", N_ ("composite structure") },
};

const BondEntryKindInfo *
bond_entry_kind_info (BondEntryKind kind)
{
  g_return_val_if_fail ((guint)kind < BOND_N_ENTRY_KINDS, NULL);
  return &kinds[kind];
}

gboolean
bond_entry_kind_parse (const char *text, BondEntryKind *kind)
{
  gsize i;

  g_return_val_if_fail (text != NULL && kind != NULL, FALSE);
  for (i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strcmp (kinds[i].name, text) == 0)
      {
        *kind = kinds[i].kind;
        return TRUE;
      }
  return FALSE;
}

BOND_DEFINE_WORDS (bond_direction, BondDirection, directions)
BOND_DEFINE_WORD_NAMES (bond_direction, BondDirection, directions)
BOND_DEFINE_WORDS (bond_void_reason, BondVoidReason, void_reasons)
BOND_DEFINE_WORD_NAMES (bond_void_reason, BondVoidReason, void_reasons)
BOND_DEFINE_WORDS (bond_point_mark, BondPointMark, point_marks)
BOND_DEFINE_WORDS (bond_disposition, BondDispositionKind, dispositions)
BOND_DEFINE_WORDS (bond_visual, BondVisualFinding, findings)
BOND_DEFINE_WORD_NAMES (bond_visual, BondVisualFinding, findings)
BOND_DEFINE_BIT_WORDS (bond_rework_done, BondReworkDone, reworks)
BOND_DEFINE_BIT_WORDS (bond_hazard, BondHazard, hazards)

gboolean
bond_hazards_parse (const char *text, guint *set)
{
  g_auto (GStrv) words = g_strsplit (text != NULL ? text : "", " ", -1);
  guint found = 0, i;

  g_return_val_if_fail (set != NULL, FALSE);
  for (i = 0; words[i] != NULL; i++)
    {
      BondHazard one;
      if (!bond_hazard_parse (words[i], &one) || (found & one))
        return FALSE;
      found |= one;
    }
  *set = found;
  return TRUE;
}

char *
bond_hazards_to_file (guint set)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint i;

  for (i = 0; i < BOND_N_HAZARDS; i++)
    if (set & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", hazards[i].file);
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

void
bond_reading_set_typed (BondReading *reading, const BondTypedValue *value)
{
  g_return_if_fail (reading != NULL && value != NULL);
  g_free (reading->text);
  reading->text = g_strdup (value->text);
  reading->unit = value->unit;
  reading->quantity = value->quantity;
  reading->nanovolt = value->nanovolt;
  reading->microampere = value->microampere;
}

void
bond_reading_copy (BondReading *to, const BondReading *from)
{
  guint i, n;
  const BondField *texts = bond_reading_texts (&n);

  g_return_if_fail (to != NULL && from != NULL && to != from);
  *to = *from;
  for (i = 0; i < n; i++)
    G_STRUCT_MEMBER (char *, to, texts[i].offset) = g_strdup (G_STRUCT_MEMBER (char *, from, texts[i].offset));
}

void
bond_reading_clear (BondReading *reading)
{
  guint i, n;
  const BondField *texts = bond_reading_texts (&n);

  g_return_if_fail (reading != NULL);
  for (i = 0; i < n; i++)
    g_free (G_STRUCT_MEMBER (char *, reading, texts[i].offset));
  *reading = (BondReading){ 0 };
}

/* One row a kind of object: an entry holds exactly one reference, whatever the object is. */
static const struct
{
  gpointer (*ref) (gpointer);
  void (*unref) (gpointer);
} adoptable[] = {
  [BOND_ADOPT_AIRFRAME] = { (gpointer (*) (gpointer))bond_airframe_ref, (void (*) (gpointer))bond_airframe_unref },
  [BOND_ADOPT_LIMIT_SET] = { (gpointer (*) (gpointer))bond_limit_set_ref, (void (*) (gpointer))bond_limit_set_unref },
  [BOND_ADOPT_INSTRUMENT]
  = { (gpointer (*) (gpointer))bond_instrument_ref, (void (*) (gpointer))bond_instrument_unref },
  [BOND_ADOPT_PERSON] = { (gpointer (*) (gpointer))bond_person_ref, (void (*) (gpointer))bond_person_unref },
  [BOND_ADOPT_HOUSE] = { (gpointer (*) (gpointer))bond_house_ref, (void (*) (gpointer))bond_house_unref },
  [BOND_ADOPT_EARLIER] = { (gpointer (*) (gpointer))bond_earlier_ref, (void (*) (gpointer))bond_earlier_unref },
};

static void
payload_clear (BondEntry *entry)
{
  BondReading *reading = (BondReading *)bond_entry_get_reading (entry);
  guint i, n;
  const BondField *fields = bond_entry_fields (entry->kind, &n);

  for (i = 0; i < n; i++)
    if (fields[i].type == BOND_FIELD_TEXT || fields[i].type == BOND_FIELD_CHILD)
      g_free (G_STRUCT_MEMBER (char *, entry, fields[i].offset));
  if (reading != NULL)
    bond_reading_clear (reading);
  else if (entry->kind == BOND_ENTRY_ADOPT && entry->adopt.object != NULL)
    adoptable[entry->adopt.what].unref (entry->adopt.object);
  else if (entry->kind == BOND_ENTRY_POINT)
    g_clear_pointer (&entry->spec, bond_point_spec_unref);
}

BondEntry *
bond_entry_new (BondEntryKind kind)
{
  BondEntry *entry;
  const BondField *fields;
  guint i, n;

  g_return_val_if_fail ((guint)kind < BOND_N_ENTRY_KINDS, NULL);
  entry = g_new0 (BondEntry, 1);
  entry->ref_count = 1;
  entry->kind = kind;
  fields = bond_entry_fields (kind, &n);
  for (i = 0; i < n; i++)
    if (fields[i].type == BOND_FIELD_COUNT)
      G_STRUCT_MEMBER (int, entry, fields[i].offset) = BOND_COUNT_NOT_STATED;
  if (kind == BOND_ENTRY_PERMIT)
    entry->permit.hazard = BOND_HAZARD_FUEL_VAPOUR;
  return entry;
}

BondEntry *
bond_entry_ref (BondEntry *entry)
{
  g_return_val_if_fail (entry != NULL, NULL);
  g_atomic_int_inc (&entry->ref_count);
  return entry;
}

void
bond_entry_unref (BondEntry *entry)
{
  g_return_if_fail (entry != NULL);
  if (!g_atomic_int_dec_and_test (&entry->ref_count))
    return;
  payload_clear (entry);
  g_free (entry->id);
  g_free (entry->sitting);
  g_free (entry->at);
  g_free (entry->by);
  g_free (entry->entered_by);
  g_free (entry->under);
  g_free (entry->point);
  g_free (entry->place);
  g_free (entry->ref);
  g_free (entry->reason);
  g_free (entry->digest);
  g_free (entry);
}

BondEntry *
bond_entry_adopt_new (BondAdoptKind what, gpointer object)
{
  BondEntry *entry;

  g_return_val_if_fail ((guint)what < G_N_ELEMENTS (adoptable) && object != NULL, NULL);
  entry = bond_entry_new (BOND_ENTRY_ADOPT);
  entry->adopt.what = what;
  entry->adopt.object = adoptable[what].ref (object);
  return entry;
}
