/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * People, house rules and earlier results as XML, both ways.
 */
#include "store/register-file.h"
#include "store/register-private.h"

#include "core/person.h"
#include "core/word.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MAX_STUDY 100000

/*
 * The whole-number settings of a house: where they stand and what is still reasonable.
 * @usual: what a house has that never set it; then it is not written (settings newer than the form). -1 = always
 * written
 */
typedef struct
{
  const char *name;
  goffset at;
  int least, most, usual;
} HouseSetting;

static const HouseSetting settings[] = {
  { "pair-percent", G_STRUCT_OFFSET (BondHouse, pair_percent), 1, 50, -1 },
  { "pair-steps", G_STRUCT_OFFSET (BondHouse, pair_steps), 0, 100, -1 },
  { "emf-microvolt", G_STRUCT_OFFSET (BondHouse, emf_microvolt), 1, 10000, -1 },
  { "reseat-max", G_STRUCT_OFFSET (BondHouse, reseat_max), 2, 10, -1 },
  { "bare-hours", G_STRUCT_OFFSET (BondHouse, bare_hours), 1, 168, 24 },
  { "vapour-permille-max", G_STRUCT_OFFSET (BondHouse, vapour_permille_max), 0, 200, 100 },
  { "oxygen-permille-min", G_STRUCT_OFFSET (BondHouse, oxygen_permille_min), 100, 209, 195 },
  { "oxygen-permille-max", G_STRUCT_OFFSET (BondHouse, oxygen_permille_max), 209, 300, 235 },
  { "strands-percent", G_STRUCT_OFFSET (BondHouse, strands_percent), 1, 100, 25 },
};

gboolean
bond_house_figure_range (goffset at, int *least, int *most)
{
  gsize i;

  g_return_val_if_fail (least != NULL && most != NULL, FALSE);
  for (i = 0; i < G_N_ELEMENTS (settings); i++)
    if (settings[i].at == at)
      {
        *least = settings[i].least;
        *most = settings[i].most;
        return TRUE;
      }
  return FALSE;
}

void
bond_person_write (xmlNode *node, gconstpointer object)
{
  const BondPerson *person = object;

  bond_head_write (node, person->id, person->revision);
  bond_xml_set (node, "name", person->name);
  bond_xml_set (node, "stamp", person->stamp);
  bond_xml_set (node, "role", person->role);
  bond_xml_set (node, "disabled", person->disabled ? "yes" : NULL);
}

gpointer
bond_person_read (xmlNode *node, const char *file, GError **error)
{
  g_autofree char *id = NULL, *name = NULL, *stamp = NULL, *role = NULL;
  BondPerson *person;
  int revision = 0;

  if (!bond_head_read (node, file, &id, &revision, error))
    return NULL;
  name = bond_read_needed (node, "name", file, error);
  if (name == NULL)
    return NULL;
  stamp = bond_xml_get (node, "stamp");
  role = bond_xml_get (node, "role");
  person = bond_person_new (id, revision, name, stamp, role);
  person->disabled = bond_xml_get_bool (node, "disabled", FALSE);
  return person;
}

void
bond_house_write (xmlNode *node, gconstpointer object)
{
  const BondHouse *house = object;
  gsize i;

  bond_head_write (node, house->id, house->revision);
  bond_xml_set (node, "organisation", house->organisation);
  bond_xml_set (node, "changed-by", house->changed_by);
  bond_xml_set (node, "changed-on", house->changed_on);
  for (i = 0; i < G_N_ELEMENTS (settings); i++)
    if (G_STRUCT_MEMBER (int, house, settings[i].at) != settings[i].usual)
      bond_xml_set_int64 (node, settings[i].name, G_STRUCT_MEMBER (int, house, settings[i].at));
  for (i = 0; i < BOND_N_CLASSES; i++)
    if (house->placing[i].n > 0)
      {
        xmlNode *study = bond_xml_add (node, "placing");

        bond_xml_set (study, "class", bond_class_file_name ((BondClass)i));
        bond_xml_set_double (study, "s-nohm", house->placing[i].s);
        bond_xml_set_int64 (study, "n", house->placing[i].n);
      }
}

static gboolean
read_settings (BondHouse *house, xmlNode *node, const char *file, GError **error)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (settings); i++)
    {
      int *value = &G_STRUCT_MEMBER (int, house, settings[i].at);

      if (!bond_read_whole (node, settings[i].name, file, settings[i].most, value, error))
        return FALSE;
      if (*value < settings[i].least)
        {
          bond_sense_error (error, file, node, _ ("%s is below %d. Set it to %d or more."), settings[i].name,
                            settings[i].least, settings[i].least);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
read_study (BondHouse *house, xmlNode *node, const char *file, GError **error)
{
  g_autofree char *name = bond_read_needed (node, "class", file, error);
  BondClass klass = BOND_CLASS_STRUCTURE;
  BondPlacingStudy study = { 0, 0 };
  gboolean known = FALSE;

  if (name == NULL || !bond_read_word (node, "class", file, (BondWordParser)bond_class_parse, &klass, error)
      || !bond_read_number (node, "s-nohm", file, &study.s, &known, error)
      || !bond_read_whole (node, "n", file, MAX_STUDY, &study.n, error))
    return FALSE;
  if (study.s <= 0 || study.n < 2 || house->placing[klass].n > 0)
    {
      bond_sense_error (error, file, node,
                        _ ("A probe-placing study needs s above 0 and n of 2 or more, once a class. Correct it."));
      return FALSE;
    }
  house->placing[klass] = study;
  return TRUE;
}

gpointer
bond_house_read (xmlNode *node, const char *file, GError **error)
{
  g_autoptr (BondHouse) house = NULL;
  g_autofree char *id = NULL, *organisation = NULL;
  xmlNode *study;
  int revision = 0;

  if (!bond_head_read (node, file, &id, &revision, error))
    return NULL;
  organisation = bond_xml_get (node, "organisation");
  house = bond_house_new (id, revision, organisation);
  house->changed_by = bond_xml_get (node, "changed-by");
  house->changed_on = bond_xml_get (node, "changed-on");
  if (!read_settings (house, node, file, error))
    return NULL;
  for (study = bond_xml_child (node, "placing"); study != NULL; study = bond_xml_next (study, "placing"))
    if (!read_study (house, study, file, error))
      return NULL;
  return g_steal_pointer (&house);
}

static const BondWord qualifiers[] = {
  [BOND_QUALIFIER_NONE] = { "none", NULL },
  [BOND_QUALIFIER_OVER] = { "over", NULL },
  [BOND_QUALIFIER_BELOW] = { "below", NULL },
};

static gboolean
parse_qualifier (const char *text, BondQualifier *qualifier)
{
  return bond_word_parse (qualifiers, G_N_ELEMENTS (qualifiers), text, (guint *)qualifier);
}

void
bond_earlier_write (xmlNode *node, gconstpointer object)
{
  const BondEarlier *earlier = object;
  guint i;

  bond_xml_set (node, "survey", earlier->survey);
  bond_xml_set (node, "date", earlier->date);
  for (i = 0; i < earlier->items->len; i++)
    {
      const BondEarlierItem *item = g_ptr_array_index (earlier->items, i);
      xmlNode *child = bond_xml_add (node, "item");

      bond_xml_set (child, "point", item->point);
      bond_xml_set_int64 (child, "nohm", item->result.nohm);
      if (item->result.rest != 0)
        bond_xml_set_int64 (child, "rest", item->result.rest);
      if (item->result.qualifier != BOND_QUALIFIER_NONE)
        bond_xml_set (child, "qualifier",
                      bond_word_file (qualifiers, G_N_ELEMENTS (qualifiers), item->result.qualifier));
      bond_xml_set (child, "state", item->state);
      bond_xml_set (child, "limit", item->limit);
      bond_xml_set (child, "note", item->note);
    }
}

static gboolean
read_item (BondEarlier *earlier, xmlNode *node, const char *file, GError **error)
{
  g_autofree char *point = bond_read_needed (node, "point", file, error), *state = NULL;
  g_autofree char *limit = bond_xml_get (node, "limit"), *note = bond_xml_get (node, "note");
  BondEarlierItem item = { point, { 0 }, NULL, limit, note };
  gint64 rest = 0;

  if (point == NULL)
    return FALSE;
  state = bond_read_needed (node, "state", file, error);
  if (state == NULL
      || !bond_read_word (node, "qualifier", file, (BondWordParser)parse_qualifier, &item.result.qualifier, error))
    return FALSE;
  item.state = state;
  bond_xml_get_int64 (node, "nohm", &item.result.nohm);
  if (bond_xml_get_int64 (node, "rest", &rest))
    item.result.rest = (gint8)CLAMP (rest, -1, 1);
  if (bond_earlier_find (earlier, point) != NULL)
    {
      bond_sense_error (error, file, node, _ ("The earlier result of point %s is there twice. Keep one."), point);
      return FALSE;
    }
  bond_earlier_add (earlier, &item);
  return TRUE;
}

gpointer
bond_earlier_read (xmlNode *node, const char *file, GError **error)
{
  g_autofree char *survey = bond_read_needed (node, "survey", file, error), *date = NULL;
  g_autoptr (BondEarlier) earlier = NULL;
  xmlNode *item;

  if (survey == NULL)
    return NULL;
  date = bond_read_needed (node, "date", file, error);
  if (date == NULL)
    return NULL;
  earlier = bond_earlier_new (survey, date);
  for (item = bond_xml_child (node, "item"); item != NULL; item = bond_xml_next (item, "item"))
    if (!read_item (earlier, item, file, error))
      return NULL;
  return g_steal_pointer (&earlier);
}
