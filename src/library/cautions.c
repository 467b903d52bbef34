/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions and when each is shown, one row each.  They are general reminders of
 * the trade (common practice, no source); every list says that the approved data and
 * the licensed staff decide.
 */
#include "library/cautions.h"
#include <glib/gi18n-lib.h>

/* Test current from which heating and harm are spoken of: our own figure, no source. */
#define HIGH_MICROAMPERE 1000000

#define READ_KEY "bond-cautions-read"

/* What a survey has, gathered in one pass over its points. */
typedef struct
{
  GPtrArray *zones[BOND_N_HAZARDS]; /* zone numbers, borrowed, in walking order */
  GPtrArray *equipment, *megohm;
  gboolean high_current;
} Found;

typedef enum
{
  WHEN_VAPOUR,
  WHEN_EXPLOSIVE,
  WHEN_COMPOSITE,
  WHEN_EQUIPMENT,
  WHEN_MEGOHM,
  WHEN_CURRENT,
  WHEN_ALWAYS,
} When;

static const struct
{
  const char *code;
  When when;
  const char *heading, *text;
} rows[] = {
  { "fuel-vapour", WHEN_VAPOUR, N_ ("Fuel vapour"),
    N_ ("No reading until the space is drained, ventilated and certified safe, and stays so. Leave at once if vapour "
        "returns. Use only a meter approved for the area; this computer is not, so it stays outside.") },
  { "explosive-devices", WHEN_EXPLOSIVE, N_ ("Electro-explosive devices"),
    N_ ("No test current through initiators, squibs or cartridges, nor through structure beside them, before they are "
        "disconnected and made safe as the data says.") },
  { "composite", WHEN_COMPOSITE, N_ ("Composite and coated structure"),
    N_ ("Test current and sharp probes can damage it. Measure only where, and with what, the data allows.") },
  { "equipment", WHEN_EQUIPMENT, N_ ("Equipment"),
    N_ ("No test current through delicate equipment. Disconnect what the data names.") },
  { "test-voltage", WHEN_MEGOHM, N_ ("Test voltage"),
    N_ ("A megohmmeter puts hundreds of volts on what it measures. Nobody touches it meanwhile; discharge it after.") },
  { "high-current", WHEN_CURRENT, N_ ("High test current"),
    N_ ("It can heat a poor joint and harm equipment. Use no more than the data allows.") },
  { "power-off", WHEN_ALWAYS, N_ ("Power and moving parts"),
    N_ ("Power off, breakers tagged; never power a circuit under test. Surfaces, doors and gear locked before anyone "
        "reaches in. Stop when a storm is near.") },
  { "surface", WHEN_ALWAYS, N_ ("Surfaces"),
    N_ ("Take off no more finish than the data allows, and protect the joint again in the time allowed. Magnesium and "
        "unlike metals need their own preparation. Solvents: vapour, skin, ignition.") },
  { "count", WHEN_ALWAYS, N_ ("Left behind"), N_ ("Count clips, probe tips and leads in, and count them out.") },
  { "reading", WHEN_ALWAYS, N_ ("What a reading is"),
    N_ ("A high one may be a measuring error, a low one a parallel path. Neither decides whether the aircraft may "
        "fly.") },
};

const char *
bond_cautions_preface (void)
{
  return _ ("General reminders. The approved maintenance data and your organisation’s licensed and authorised staff "
            "decide. If this text and the data differ, follow the data.");
}

static void
caution_free (gpointer data)
{
  BondCaution *caution = data;

  g_free (caution->where);
  g_free (caution);
}

static void
add_row (GPtrArray *list, gsize i, const char *where)
{
  BondCaution *caution = g_new0 (BondCaution, 1);

  caution->code = rows[i].code;
  caution->heading = _ (rows[i].heading);
  caution->text = _ (rows[i].text);
  caution->where = g_strdup (where);
  g_ptr_array_add (list, caution);
}

GPtrArray *
bond_cautions_all (void)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (caution_free);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    add_row (list, i, NULL);
  return list;
}

static void
note_zone (GPtrArray *zones, const char *zone)
{
  if (!g_ptr_array_find_with_equal_func (zones, zone, g_str_equal, NULL))
    g_ptr_array_add (zones, (gpointer)zone);
}

static gboolean
has_megohm_row (BondPoint *point)
{
  GPtrArray *named = bond_point_get_rows (point);

  for (guint i = 0; i < named->len; i++)
    {
      const BondNamedRow *one = g_ptr_array_index (named, i);

      if (one->row != NULL && one->row->method == BOND_METHOD_MEGOHMMETER)
        return TRUE;
    }
  return FALSE;
}

static void
look_at_point (BondPoint *point, Found *found)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  guint hazards = bond_point_get_hazards (point);

  for (int i = 0; i < BOND_N_HAZARDS; i++)
    if ((hazards & 1u << i) != 0)
      note_zone (found->zones[i], spec->zone);
  if (spec->klass == BOND_CLASS_EQUIPMENT)
    note_zone (found->equipment, spec->zone);
  if (has_megohm_row (point))
    note_zone (found->megohm, spec->zone);
}

static gboolean
has_high_current (BondSurvey *survey)
{
  GPtrArray *instruments = bond_survey_get_instruments (survey);

  for (guint i = 0; i < instruments->len; i++)
    {
      const BondInstrument *instrument = g_ptr_array_index (instruments, i);

      for (guint k = 0; k < instrument->ranges->len; k++)
        if (((BondRange *)g_ptr_array_index (instrument->ranges, k))->microampere > HIGH_MICROAMPERE)
          return TRUE;
    }
  return FALSE;
}

static void
look (BondSurvey *survey, Found *found)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (survey));

  for (int i = 0; i < BOND_N_HAZARDS; i++)
    found->zones[i] = g_ptr_array_new ();
  found->equipment = g_ptr_array_new ();
  found->megohm = g_ptr_array_new ();
  found->high_current = has_high_current (survey);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);

      look_at_point (point, found);
    }
}

static void
found_clear (Found *found)
{
  for (int i = 0; i < BOND_N_HAZARDS; i++)
    g_ptr_array_unref (found->zones[i]);
  g_ptr_array_unref (found->equipment);
  g_ptr_array_unref (found->megohm);
}

/* Zones that ask for a row; NULL where it does not rest on zones. */
static GPtrArray *
zones_of (const Found *found, When when)
{
  switch (when)
    {
    case WHEN_VAPOUR:
    case WHEN_EXPLOSIVE:
    case WHEN_COMPOSITE:
      return found->zones[when - WHEN_VAPOUR];
    case WHEN_EQUIPMENT:
      return found->equipment;
    case WHEN_MEGOHM:
      return found->megohm;
    case WHEN_CURRENT:
    case WHEN_ALWAYS:
    default:
      return NULL;
    }
}

static char *
join_zones (GPtrArray *zones, const char *between)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < zones->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? between : "", (const char *)g_ptr_array_index (zones, i));
  return g_string_free (text, FALSE);
}

GPtrArray *
bond_cautions_for (BondSurvey *survey)
{
  GPtrArray *list;
  Found found = { 0 };

  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  list = g_ptr_array_new_with_free_func (caution_free);
  look (survey, &found);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GPtrArray *zones = zones_of (&found, rows[i].when);
      g_autofree char *where = zones != NULL ? join_zones (zones, ", ") : NULL;

      if (zones != NULL ? zones->len > 0 : rows[i].when == WHEN_ALWAYS || found.high_current)
        add_row (list, i, where);
    }
  found_clear (&found);
  return list;
}

GPtrArray *
bond_cautions_unread (BondSurvey *survey, const char *person)
{
  GPtrArray *list = bond_cautions_for (survey);
  g_autofree char *now = NULL;

  if (list == NULL || person == NULL)
    return list;
  now = bond_source_peek (bond_survey_get_source (survey));
  for (guint i = list->len; i-- > 0;)
    {
      const BondCaution *caution = g_ptr_array_index (list, i);

      if (bond_survey_caution_read (survey, person, caution->code, now))
        g_ptr_array_remove_index (list, i);
    }
  return list;
}

/* A yes holds for the day, while no point and no meter comes along. */
gboolean
bond_cautions_all_read (BondSurvey *survey, const char *person)
{
  g_autofree char *now = NULL;
  g_autofree char *key = NULL;
  g_autoptr (GPtrArray) unread = NULL;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && person != NULL, FALSE);
  now = bond_source_peek (bond_survey_get_source (survey));
  key = g_strdup_printf ("%s %.10s %u %u", person, now, g_list_model_get_n_items (G_LIST_MODEL (survey)),
                         bond_survey_get_instruments (survey)->len);
  if (g_strcmp0 (g_object_get_data (G_OBJECT (survey), READ_KEY), key) == 0)
    return TRUE;
  unread = bond_cautions_unread (survey, person);
  if (unread->len > 0)
    return FALSE;
  g_object_set_data_full (G_OBJECT (survey), READ_KEY, g_steal_pointer (&key), g_free);
  return TRUE;
}

BondEntry *
bond_cautions_entry (GPtrArray *cautions, const char *person)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_CAUTION);
  GString *codes = g_string_new (NULL);
  g_autoptr (GPtrArray) zones = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < cautions->len; i++)
    {
      const BondCaution *caution = g_ptr_array_index (cautions, i);
      g_auto (GStrv) parts = caution->where != NULL ? g_strsplit (caution->where, ", ", -1) : g_new0 (char *, 1);

      g_string_append_printf (codes, "%s%s", i > 0 ? " " : "", caution->code);
      for (int k = 0; parts[k] != NULL; k++)
        if (!g_ptr_array_find_with_equal_func (zones, parts[k], g_str_equal, NULL))
          g_ptr_array_add (zones, g_strdup (parts[k]));
    }
  entry->by = g_strdup (person);
  entry->caution.shown = g_string_free (codes, FALSE);
  entry->caution.zones = zones->len > 0 ? join_zones (zones, " ") : NULL;
  return entry;
}
