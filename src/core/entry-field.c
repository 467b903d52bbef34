/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which plain members the payload of each kind of entry has, and what they are
 * called in files.  What they mean stands beside their structures in entry.h.
 */
#include "core/entry-field.h"

#define AT(member) G_STRUCT_OFFSET (BondEntry, member)
#define IN_READING(member) G_STRUCT_OFFSET (BondReading, member)
#define WORDS(prefix) .word = (BondFieldWord)prefix##_file_name, .parse = (BondFieldParse)prefix##_parse

static const BondField reading_texts[] = {
  { "of", BOND_FIELD_TEXT, IN_READING (of) },
  { "text", BOND_FIELD_TEXT, IN_READING (text) },
  { "instrument", BOND_FIELD_TEXT, IN_READING (instrument) },
  { "range", BOND_FIELD_TEXT, IN_READING (range) },
  { "leads", BOND_FIELD_TEXT, IN_READING (leads) },
  { "check", BOND_FIELD_TEXT, IN_READING (check) },
  { "via", BOND_FIELD_TEXT, IN_READING (via) },
  { "said", BOND_FIELD_TEXT, IN_READING (said) },
  { "reference-end", BOND_FIELD_TEXT, IN_READING (reference_end) },
};

static const BondField create_fields[] = {
  { "type", BOND_FIELD_TEXT, AT (create.aircraft_type), "aircraft" },
  { "serial", BOND_FIELD_TEXT, AT (create.serial), "aircraft" },
  { "registration", BOND_FIELD_TEXT, AT (create.registration), "aircraft" },
  { "hours", BOND_FIELD_TEXT, AT (create.hours), "aircraft" },
  { "cycles", BOND_FIELD_TEXT, AT (create.cycles), "aircraft" },
  { "power", BOND_FIELD_TEXT, AT (create.power), "aircraft" },
  { "fuel", BOND_FIELD_TEXT, AT (create.fuel), "aircraft" },
  { "number", BOND_FIELD_TEXT, AT (create.order), "order" },
  { "trigger", BOND_FIELD_TEXT, AT (create.trigger), "order" },
  { "customer", BOND_FIELD_TEXT, AT (create.customer), "order" },
  { "location", BOND_FIELD_TEXT, AT (create.location), "order" },
  { "card", BOND_FIELD_TEXT, AT (create.card), "order" },
  { "card-revision", BOND_FIELD_TEXT, AT (create.card_revision), "order" },
  { "data-checked-by", BOND_FIELD_TEXT, AT (create.data_checked_by), "order" },
  { "data-checked-on", BOND_FIELD_TEXT, AT (create.data_checked_on), "order" },
  { "scope", BOND_FIELD_TEXT, AT (create.scope), "order" },
  { "name", BOND_FIELD_WORD, AT (create.rule), "rule", WORDS (bond_rule) },
  { "title", BOND_FIELD_CHILD, AT (create.title) },
};

static const BondField place_fields[] = {
  { "label", BOND_FIELD_TEXT, AT (place_spec.label) },
  { "in-sample", BOND_FIELD_ANSWER, AT (place_spec.in_sample) },
};

static const BondField void_fields[] = { { "why", BOND_FIELD_WORD, AT (voided.why), NULL, WORDS (bond_void_reason) } };

static const BondField correct_fields[]
    = { { "why", BOND_FIELD_WORD, AT (correct.why), NULL, WORDS (bond_void_reason) } };

static const BondField move_fields[] = {
  { "to-point", BOND_FIELD_TEXT, AT (move.to_point) },
  { "to-place", BOND_FIELD_TEXT, AT (move.to_place) },
  { "why", BOND_FIELD_WORD, AT (move.why), NULL, WORDS (bond_void_reason) },
};

static const BondField take_back_fields[]
    = { { "why", BOND_FIELD_WORD, AT (take_back.why), NULL, WORDS (bond_void_reason) } };

static const BondField rework_fields[] = {
  { "reference", BOND_FIELD_CHILD, AT (rework.reference) },
  { "note", BOND_FIELD_CHILD, AT (rework.note) },
  { "done-by", BOND_FIELD_CHILD, AT (rework.done_by) },
};

static const BondField condition_fields[] = {
  { "name", BOND_FIELD_WORD, AT (condition.condition), NULL, WORDS (bond_condition) },
  { "reference", BOND_FIELD_TEXT, AT (condition.reference) },
};

static const BondField state_fields[] = { { "mark", BOND_FIELD_WORD, AT (state.mark), NULL, WORDS (bond_point_mark) } };

static const BondField visual_fields[] = {
  { "finding", BOND_FIELD_WORD, AT (visual.finding), NULL, WORDS (bond_visual) },
  { "reject", BOND_FIELD_FLAG, AT (visual.reject) },
  { "percent", BOND_FIELD_COUNT, AT (visual.percent) },
};

static const BondField disposition_fields[] = {
  { "kind", BOND_FIELD_WORD, AT (disposition.kind), NULL, WORDS (bond_disposition) },
  { "reference", BOND_FIELD_TEXT, AT (disposition.reference) },
  { "holder", BOND_FIELD_TEXT, AT (disposition.holder) },
  { "until", BOND_FIELD_TEXT, AT (disposition.until) },
  { "first-date", BOND_FIELD_TEXT, AT (disposition.first_date) },
};

static const BondField attach_fields[] = {
  { "sha256", BOND_FIELD_TEXT, AT (attach.sha256) },
  { "name", BOND_FIELD_TEXT, AT (attach.name) },
  { "type", BOND_FIELD_TEXT, AT (attach.type) },
  { "size", BOND_FIELD_SIZE, AT (attach.size) },
};

static const BondField note_fields[] = { { "note", BOND_FIELD_CHILD, AT (note.text) } };

static const BondField defect_fields[] = {
  { "card", BOND_FIELD_TEXT, AT (defect.card) },
  { "words", BOND_FIELD_TEXT, AT (defect.words) },
};

static const BondField deviation_fields[] = { { "holder", BOND_FIELD_TEXT, AT (deviation.holder) } };

static const BondField refinish_fields[] = {
  { "how", BOND_FIELD_TEXT, AT (refinish.how) },
  { "reference", BOND_FIELD_TEXT, AT (refinish.reference) },
  { "done-by", BOND_FIELD_TEXT, AT (refinish.done_by) },
};

static const BondField permit_fields[] = {
  { "hazard", BOND_FIELD_WORD, AT (permit.hazard), NULL, WORDS (bond_hazard) },
  { "number", BOND_FIELD_TEXT, AT (permit.number) },
  { "zones", BOND_FIELD_TEXT, AT (permit.zones) },
  { "tester", BOND_FIELD_TEXT, AT (permit.tester) },
  { "authority", BOND_FIELD_TEXT, AT (permit.authority) },
  { "gas-at", BOND_FIELD_TEXT, AT (permit.gas_at) },
  { "valid-until", BOND_FIELD_TEXT, AT (permit.valid_until) },
  { "vapour-permille", BOND_FIELD_COUNT, AT (permit.vapour_permille) },
  { "oxygen-permille", BOND_FIELD_COUNT, AT (permit.oxygen_permille) },
  { "counted-in", BOND_FIELD_COUNT, AT (permit.counted_in) },
};

static const BondField close_permit_fields[] = { { "counted-out", BOND_FIELD_COUNT, AT (close_permit.counted_out) } };

static const BondField reference_fields[] = {
  { "from", BOND_FIELD_TEXT, AT (reference_move.from) },
  { "to", BOND_FIELD_TEXT, AT (reference_move.to) },
};

static const BondField caution_fields[] = {
  { "shown", BOND_FIELD_TEXT, AT (caution.shown) },
  { "zones", BOND_FIELD_TEXT, AT (caution.zones) },
};

static const BondField handover_fields[] = {
  { "to", BOND_FIELD_TEXT, AT (handover.to) },
  { "done", BOND_FIELD_TEXT, AT (handover.done) },
  { "to-do", BOND_FIELD_TEXT, AT (handover.to_do) },
  { "bare", BOND_FIELD_TEXT, AT (handover.bare) },
  { "panels", BOND_FIELD_TEXT, AT (handover.panels) },
  { "meter", BOND_FIELD_TEXT, AT (handover.meter) },
  { "notes", BOND_FIELD_TEXT, AT (handover.notes) },
  { "points-done", BOND_FIELD_COUNT, AT (handover.points_done) },
  { "points-to-do", BOND_FIELD_COUNT, AT (handover.points_to_do) },
};

#define TABLE(fields)                                                                                                  \
  {                                                                                                                    \
    fields, G_N_ELEMENTS (fields)                                                                                      \
  }

/* Kinds without a row have no plain members. */
static const struct
{
  const BondField *fields;
  guint n;
} tables[BOND_N_ENTRY_KINDS] = {
  [BOND_ENTRY_CREATE] = TABLE (create_fields),
  [BOND_ENTRY_PLACE] = TABLE (place_fields),
  [BOND_ENTRY_VOID] = TABLE (void_fields),
  [BOND_ENTRY_CORRECT] = TABLE (correct_fields),
  [BOND_ENTRY_MOVE] = TABLE (move_fields),
  [BOND_ENTRY_TAKE_BACK] = TABLE (take_back_fields),
  [BOND_ENTRY_REWORK] = TABLE (rework_fields),
  [BOND_ENTRY_CONDITION] = TABLE (condition_fields),
  [BOND_ENTRY_STATE] = TABLE (state_fields),
  [BOND_ENTRY_VISUAL] = TABLE (visual_fields),
  [BOND_ENTRY_DISPOSITION] = TABLE (disposition_fields),
  [BOND_ENTRY_ATTACH] = TABLE (attach_fields),
  [BOND_ENTRY_NOTE] = TABLE (note_fields),
  [BOND_ENTRY_DEFECT] = TABLE (defect_fields),
  [BOND_ENTRY_DEVIATION] = TABLE (deviation_fields),
  [BOND_ENTRY_REFINISH] = TABLE (refinish_fields),
  [BOND_ENTRY_PERMIT] = TABLE (permit_fields),
  [BOND_ENTRY_CLOSE_PERMIT] = TABLE (close_permit_fields),
  [BOND_ENTRY_REFERENCE] = TABLE (reference_fields),
  [BOND_ENTRY_CAUTION] = TABLE (caution_fields),
  [BOND_ENTRY_HANDOVER] = TABLE (handover_fields),
};

const BondField *
bond_entry_fields (BondEntryKind kind, guint *n)
{
  g_return_val_if_fail ((guint)kind < BOND_N_ENTRY_KINDS && n != NULL, NULL);
  *n = tables[kind].n;
  return tables[kind].fields;
}

const BondField *
bond_reading_texts (guint *n)
{
  g_return_val_if_fail (n != NULL, NULL);
  *n = G_N_ELEMENTS (reading_texts);
  return reading_texts;
}
