/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Registers there and back: shipped files come out as the bytes they went in, and a
 * small file is spoilt in one place at a time, each time refused with its line.
 */
#include "store/catalog.h"
#include "store/register-file.h"
#include "store/register-parts.h"

#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <unistd.h>

/* Line numbers below count in these texts. */
static const char airframe_text[]
    = "<airframe xmlns='urn:bondwright:airframe' format='1' id='box' revision='2' name='Box' units='in'>\n"   /* 1 */
      "<zones>\n"                                                                                             /* 2 */
      "<zone number='500' name='Wing' level='major' side='left'/>\n"                                          /* 3 */
      "<zone number='510' name='Part' level='zone' side='left' parent='500' mirror='610'/>\n"                 /* 4 */
      "<zone number='610' name='Other' level='zone' side='right' mirror='510'/>\n"                            /* 5 */
      "</zones>\n"                                                                                            /* 6 */
      "<view id='plan-upper' title='Plan' width='100' height='50' toward='+WL'>\n"                            /* 7 */
      "<axis screen='x' of='BL' zero='50' sign='1'/>\n"                                                       /* 8 */
      "<axis screen='y' of='STA' zero='-10' sign='1'/>\n"                                                     /* 9 */
      "<outline d='M0 0L10 0L10 10Z'/>\n"                                                                     /* 10 */
      "<zone number='510'>\n"                                                                                 /* 11 */
      "<polygon points='0,0 10,0 10,10'/>\n"                                                                  /* 12 */
      "<label x='5' y='2.5' size='3'/>\n"                                                                     /* 13 */
      "</zone></view>\n"                                                                                      /* 14 */
      "<points>\n"                                                                                            /* 15 */
      "<point id='q-1' number='510-J01' class='structure' zone='510' limit='example/J1' sta='12' bl='-42'>\n" /* 16 */
      "<from>a</from><to>b</to>\n"                                                                            /* 17 */
      "<at view='plan-upper' x='8' y='2' home='yes'/>\n"                                                      /* 18 */
      "</point>\n"                                                                                            /* 19 */
      "</points></airframe>\n";

static const char limits_text[]
    = "<limit-set xmlns='urn:bondwright:limit-set' format='1' id='mine' revision='1' name='Mine'>\n" /* 1 */
      "<row code='J1' class='structure' method='four-terminal' default='yes'>\n"                     /* 2 */
      "<in-service>\n"                                                                               /* 3 */
      "<upper relation='le' value='5' unit='mOhm'/>\n"                                               /* 4 */
      "<lower relation='ge' value='1' unit='uOhm'/>\n"                                               /* 5 */
      "</in-service>\n"                                                                              /* 6 */
      "<source document='Mine'/></row>\n"                                                            /* 7 */
      "<row code='J2' class='structure' method='visual'><source/></row>\n"                           /* 8 */
      "</limit-set>\n";

static const char instrument_text[]
    = "<instrument xmlns='urn:bondwright:instrument' format='1' id='m' revision='1' kind='milliohmmeter' name='M' "
      "due='2027-02-28'>\n"                        /* 1 */
      "<certificate ppm='1000' k='2'/>\n"          /* 2 */
      "<range id='a' end='0.03' step='0.00001'>\n" /* 3 */
      "<accuracy counts='2'/></range>\n"           /* 4 */
      "<range id='b' end='0.3' step='0.0001'/>\n"  /* 5 */
      "</instrument>\n";

static const char house_text[]
    = "<house xmlns='urn:bondwright:house' format='1' id='h' revision='1' pair-percent='10' reseat-max='3'>\n" /* 1 */
      "<placing class='structure' s-nohm='12000' n='10'/>\n"                                                   /* 2 */
      "<placing class='fastener' s-nohm='12000' n='10'/>\n"                                                    /* 3 */
      "</house>\n";

/* @from becomes @to; the first problem must stand in @line. */
typedef struct
{
  const char *text, *from, *to;
  int line;
  int code; /* a BondStoreError */
} Spoil;

#define SENSE BOND_STORE_ERROR_SENSE
#define SCHEMA BOND_STORE_ERROR_SCHEMA

static const Spoil spoils[] = {
  { airframe_text, "format='1'", "format='2'", 1, BOND_STORE_ERROR_NEWER },
  { airframe_text, "format='1'", "format='0'", 1, SCHEMA },
  { airframe_text, "revision='2'", "revision='0'", 1, SCHEMA },
  { airframe_text, "id='box'", "id='../box'", 1, SCHEMA },
  { airframe_text, "units='in'", "units='ft'", 1, SCHEMA },
  { airframe_text, "parent='500'", "parent='501'", 4, SENSE },
  { airframe_text, "parent='500'", "parent='510'", 4, SENSE },
  { airframe_text, "parent='500'", "within='501'", 4, SENSE },
  { airframe_text, "mirror='610'", "mirror='611'", 4, SENSE },
  { airframe_text, "mirror='610'", "mirror='500'", 4, SENSE },
  { airframe_text, "number='610'", "number='510'", 5, SENSE },
  { airframe_text, "number='610'", "number=''", 5, SCHEMA },
  { airframe_text, "side='right'", "side='Right'", 5, SCHEMA },
  { airframe_text, "side='right'", "side='right' tint='3'", 5, SENSE },
  { airframe_text, "width='100'", "width='0'", 7, SENSE },
  { airframe_text, "width='100'", "width='-100'", 7, SENSE },
  { airframe_text, "width='100'", "width='NaN'", 7, SCHEMA },
  { airframe_text, "width='100'", "width='1e2'", 7, SCHEMA },
  { airframe_text, "width='100'", "width='99999999'", 7, SENSE },
  { airframe_text, "toward='+WL'", "toward='+BL'", 7, SENSE },
  { airframe_text, "of='BL'", "of='STA'", 7, SENSE },
  { airframe_text, "zero='50'", "zero='INF'", 8, SCHEMA },
  { airframe_text, "zero='50'", "zero=' 50'", 8, SENSE },
  { airframe_text, "zero='50'", "zero='5,0'", 8, SCHEMA },
  { airframe_text, "M0 0L10 0", "M0 0Q10 0", 10, SENSE },
  { airframe_text, "<outline d='M0 0L10 0L10 10Z'/>", "", 11, SCHEMA },
  { airframe_text, "<zone number='510'>", "<zone number='511'>", 7, SENSE },
  { airframe_text, "0,0 10,0 10,10", "0,0 10,0", 12, SENSE },
  { airframe_text, "0,0 10,0 10,10", "0,0 10,10 10,0 0,10", 12, SENSE },
  { airframe_text, "0,0 10,0 10,10", "0,0 10,0 nan,10", 12, SENSE },
  { airframe_text, "size='3'", "size='0'", 13, SENSE },
  { airframe_text, "size='3'", "size='3' leader-x='1'", 13, SENSE },
  { airframe_text, "510-J01", "510J01", 16, SENSE },
  { airframe_text, "zone='510' limit", "zone='511' limit", 16, SENSE },
  { airframe_text, "class='structure'", "class='Structure'", 16, SCHEMA },
  { airframe_text, "class='structure'", "", 16, SCHEMA },
  { airframe_text, "example/J1", "example/J1/x", 16, SENSE },
  { airframe_text, "example/J1", "example/", 16, SENSE },
  { airframe_text, "example/J1", "/J1", 16, SENSE },
  { airframe_text, "example/J1", "example  J1", 16, SENSE },
  { airframe_text, "sta='12'", "sta='Infinity'", 16, SCHEMA },
  { airframe_text, "sta='12'", "sta='2000000'", 16, SENSE },
  { airframe_text, "<from>a</from>", "<from> </from>", 16, SENSE },
  { airframe_text, "view='plan-upper' x", "view='front' x", 16, SENSE },
  { airframe_text, "home='yes'", "home='yes' drawn-zone='610'", 16, SENSE },
  { airframe_text, "home='yes'/>", "home='yes'/><at view='plan-upper' x='1' y='1'/>", 16, SENSE },
  { airframe_text, " x='8'", "", 18, SCHEMA },
  { airframe_text, "</point>\n",
    "</point><point id='q-1' number='510-J02' class='structure' zone='510'><from>a</from><to>b</to></point>", 19,
    SENSE },
  { airframe_text, "</point>\n",
    "</point><point id='q-2' number='510-J01' class='structure' zone='510'><from>a</from><to>b</to></point>", 19,
    SENSE },
  { instrument_text, " k='2'", "", 2, SENSE },
  { instrument_text, "ppm='1000' k='2'", "ohm='0.001'", 2, SENSE },
  { instrument_text, " counts='2'", "", 4, SENSE },
  { instrument_text, "counts='2'", "counts='0'", 4, SENSE },
  { limits_text, "value='5'", "value='0'", 4, SENSE },
  { limits_text, "value='5'", "value='-5'", 4, SENSE },
  { limits_text, "value='5'", "value='NaN'", 4, SCHEMA },
  { limits_text, "value='5'", "value='INF'", 4, SCHEMA },
  { limits_text, "value='5'", "value='5,0'", 4, SCHEMA },
  { limits_text, "value='5'", "value='0.0000001'", 4, SENSE },                            /* finer than a nano-ohm */
  { limits_text, "value='5' unit='mOhm'", "value='999999999999' unit='MOhm'", 4, SENSE }, /* more than 64 bits hold */
  { limits_text, "relation='le'", "relation='ge'", 4, SCHEMA },
  { limits_text, "unit='mOhm'", "unit='milliohm'", 4, SCHEMA },
  { limits_text, "value='1'", "value='5000'", 3, SENSE }, /* lower = upper */
  { limits_text, "value='1'", "value='5001'", 3, SENSE }, /* lower above upper */
  { limits_text, "code='J2'", "code='J1'", 8, SENSE },
  { limits_text, "code='J2'", "code='J/2'", 8, SCHEMA },
  { limits_text, "code='J2'", "code=''", 8, SCHEMA },
  { limits_text, "method='visual'", "method='four-terminal'", 8, SENSE }, /* measured, but no limit */
  { limits_text, "method='visual'", "method='visual' volts='90000'", 8, SENSE },
  { limits_text, "method='visual'", "method='visual' default='yes'", 8, SENSE },
  { limits_text, "class='structure' method='visual'", "class='any' method='visual' default='yes'", 8, SENSE },
  { instrument_text, "2027-02-28", "2027-02-29", 1, SENSE },
  { instrument_text, "2027-02-28", "2027-13", 1, SENSE },
  { instrument_text, "2027-02-28", "next year", 1, SCHEMA },
  { instrument_text, "k='2'", "k='0.5'", 2, SENSE },
  { instrument_text, "ppm='1000'", "ppm='9999999'", 2, SENSE },
  { instrument_text, "end='0.03'", "end='0'", 3, SENSE },
  { instrument_text, "end='0.03'", "end='-0.03'", 3, SENSE },
  { instrument_text, "step='0.00001'", "step='0.03'", 3, SENSE },
  { instrument_text, "counts='2'", "counts='20000'", 4, SENSE },
  { instrument_text, "id='b'", "id='a'", 5, SENSE },
  { house_text, "pair-percent='10'", "pair-percent='0'", 1, SENSE },
  { house_text, "pair-percent='10'", "pair-percent='51'", 1, SENSE },
  { house_text, "reseat-max='3'", "reseat-max='1'", 1, SENSE },
  { house_text, "class='fastener'", "class='structure'", 3, SENSE },
  { house_text, "n='10'/>", "n='1'/>", 2, SENSE },
  { house_text, "s-nohm='12000'", "s-nohm='-1'", 2, SENSE },
};

static gpointer
load (const char *text, BondAdoptKind *what, GPtrArray *problems, GError **error)
{
  return bond_register_load_bytes ("test.xml", text, strlen (text), what, problems, error);
}

/* @text with the first @from replaced by @to; @from must be there. */
static char *
spoilt (const Spoil *spoil)
{
  const char *at = strstr (spoil->text, spoil->from);

  g_assert_nonnull (at);
  return g_strdup_printf ("%.*s%s%s", (int)(at - spoil->text), spoil->text, spoil->to, at + strlen (spoil->from));
}

static void
test_texts_are_fine (void)
{
  static const char *const texts[] = { airframe_text, limits_text, instrument_text, house_text };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      BondAdoptKind what;
      gpointer object = load (texts[i], &what, NULL, &error);

      g_assert_no_error (error);
      bond_register_unref (what, object);
    }
}

static void
test_spoilt (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (spoils); i++)
    {
      g_autofree char *text = spoilt (&spoils[i]);
      g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
      g_autoptr (GError) error = NULL;
      BondAdoptKind what;
      const BondProblem *first;

      g_test_message ("%s -> %s", spoils[i].from, spoils[i].to);
      g_assert_null (load (text, &what, problems, &error));
      g_assert_error (error, BOND_STORE_ERROR, spoils[i].code);
      g_assert_true (g_str_has_prefix (error->message, "test.xml:"));
      g_assert_cmpint (problems->len, >=, 1);
      first = g_ptr_array_index (problems, 0);
      g_assert_cmpstr (first->file, ==, "test.xml");
      g_assert_cmpint (first->line, ==, spoils[i].line);
      g_assert_null (strstr (first->message, "test.xml:"));
    }
}

/* The readers do not lean on the schema: what it would have asked for is missed here too. */
static void
test_without_schema (void)
{
  static const Spoil rows[] = {
    { airframe_text, " revision='2'", " revision='0'", 1, SENSE },
    { airframe_text, " number='610'", "", 5, SENSE },
    { airframe_text, "<axis screen='x' of='BL' zero='50' sign='1'/>", "", 7, SENSE },
    { airframe_text, "<outline d='M0 0L10 0L10 10Z'/>", "", 7, SENSE },
    { airframe_text, " width='100'", "", 7, SENSE },
    { airframe_text, "sign='1'", "sign='2'", 7, SENSE },
    { airframe_text, "side='right'", "side='Right'", 5, SENSE },
    { airframe_text, "class='structure'", "", 16, SENSE },
    { airframe_text, " x='8'", "", 18, SENSE },
    { limits_text, "value='5'", "value='NaN'", 4, SENSE },
    { limits_text, "value='5'", "value='5,0'", 4, SENSE },
    { limits_text, "relation='le'", "relation='ge'", 4, SENSE },
    { limits_text, "relation='le'", "", 4, SENSE },
    { limits_text, "code='J2'", "", 8, SENSE },
    { instrument_text, " step='0.00001'", "", 3, SENSE },
    { instrument_text, "2027-02-28", "next year", 1, SENSE },
    { house_text, "n='10'", "", 2, SENSE },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = spoilt (&rows[i]), *place = g_strdup_printf ("test.xml:%d: ", rows[i].line);
      g_autoptr (GError) error = NULL;
      xmlDoc *doc = xmlReadMemory (text, (int)strlen (text), "test.xml", NULL, XML_PARSE_NONET);
      BondAdoptKind what;

      g_test_message ("%s -> %s", rows[i].from, rows[i].to);
      g_assert_null (bond_register_read (xmlDocGetRootElement (doc), &what, "test.xml", &error));
      g_assert_error (error, BOND_STORE_ERROR, rows[i].code);
      g_assert_true (g_str_has_prefix (error->message, place));
      xmlFreeDoc (doc);
    }
}

static void
test_not_a_register (void)
{
  static const char *const texts[] = { "", "x", "<airframe/>", "<a xmlns='urn:bondwright:airframe'/>",
                                       "<!DOCTYPE a><airframe xmlns='urn:bondwright:airframe'/>" };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      BondAdoptKind what;

      g_assert_null (load (texts[i], &what, NULL, &error));
      g_assert_cmpint (error->domain, ==, BOND_STORE_ERROR);
    }
}

/* A shipped file is what the writer makes of it, byte for byte. */
static void
test_shipped_there_and_back (void)
{
  int kind, n = 0;

  for (kind = BOND_ADOPT_AIRFRAME; kind <= BOND_ADOPT_HOUSE; kind++)
    {
      g_auto (GStrv) paths = bond_catalog_shipped ((BondAdoptKind)kind);
      guint i;

      for (i = 0; paths[i] != NULL; i++, n++)
        {
          g_autoptr (GError) error = NULL;
          g_autoptr (GBytes) bytes = g_resources_lookup_data (paths[i], G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
          g_autofree char *text = NULL;
          BondAdoptKind what;
          gpointer object;
          gsize length;

          object = bond_register_load_bytes (paths[i], g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), &what,
                                             NULL, &error);
          g_assert_no_error (error);
          text = bond_register_to_text (what, object, &length);
          g_test_message ("%s", paths[i]);
          g_assert_cmpmem (text, length, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
          bond_register_unref (what, object);
        }
    }
  g_assert_cmpint (n, >=, 4 + 8 + 7 + 1);
}

/* A row with every field another value than usual. */
static BondLimitRow *
full_row (void)
{
  BondLimitRow *row = bond_limit_row_new ();

  row->code = g_strdup ("OWN");
  row->klass = BOND_CLASS_EQUIPMENT;
  row->method = BOND_METHOD_MEGOHMMETER;
  row->method_volts = 500;
  row->scope = BOND_SCOPE_PATH;
  row->connectors = BOND_CONNECTORS_MATED;
  row->mounting = BOND_MOUNTING_ISOLATED;
  row->pair = TRUE;
  row->verified = FALSE;
  row->in_service.upper = (BondBound){ BOND_RELATION_LT, 100 * BOND_NOHM_PER_OHM * 1000000, BOND_UNIT_MEGOHM };
  row->in_service.lower = (BondBound){ BOND_RELATION_GT, 100 * BOND_NOHM_PER_OHM * 1000, BOND_UNIT_KILOOHM };
  row->has_strict = TRUE;
  row->strict = row->in_service;
  row->strict.upper.nohm /= 2;
  row->covers = g_strdup ("everything");
  row->document = g_strdup ("D");
  row->revision = g_strdup ("R");
  row->paragraph = g_strdup ("P");
  row->checked_by = g_strdup ("C");
  row->note = g_strdup ("N");
  return row;
}

static BondPointSpec *
full_point (void)
{
  BondPointSpec *spec = bond_point_spec_new ("q-1", "510-E02", BOND_CLASS_EQUIPMENT, "510");

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("<case> & \"rack\"");
  spec->to = g_strdup ("Träger, Ø 5");
  spec->why = g_strdup ("shock");
  spec->watch = g_strdup ("paint");
  spec->basis = g_strdup ("word of mouth");
  spec->panel = g_strdup ("511AB, 511BB");
  spec->limit = g_strdup ("E1");
  spec->own_limit = full_row ();
  spec->condition = BOND_CONDITION_NEW;
  spec->sample_every = 3;
  spec->wl = (BondCoordinate){ TRUE, 0 }; /* known and 0 is not the same as not known */
  bond_point_spec_add_placement (spec, "front", 1.25, -3, FALSE, "500");
  return spec;
}

static void
assert_bounds_equal (const BondBounds *a, const BondBounds *b)
{
  g_autofree char *text_a = bond_bounds_to_file (a), *text_b = bond_bounds_to_file (b);

  g_assert_cmpstr (text_a, ==, text_b);
  g_assert_cmpint (a->upper.unit, ==, b->upper.unit);
  g_assert_cmpint (a->lower.unit, ==, b->lower.unit);
}

static void
assert_rows_equal (const BondLimitRow *a, const BondLimitRow *b)
{
  assert_bounds_equal (&a->in_service, &b->in_service);
  assert_bounds_equal (&a->strict, &b->strict);
  g_assert_cmpint (a->klass, ==, b->klass);
  g_assert_cmpint (a->method, ==, b->method);
  g_assert_cmpint (a->method_volts, ==, b->method_volts);
  g_assert_cmpint (a->scope, ==, b->scope);
  g_assert_cmpint (a->connectors, ==, b->connectors);
  g_assert_cmpint (a->mounting, ==, b->mounting);
  g_assert_cmpint (a->pair, ==, b->pair);
  g_assert_cmpint (a->verified, ==, b->verified);
  g_assert_cmpint (a->has_strict, ==, b->has_strict);
  g_assert_cmpstr (a->code, ==, b->code);
  g_assert_cmpstr (a->covers, ==, b->covers);
  g_assert_cmpstr (a->document, ==, b->document);
  g_assert_cmpstr (a->revision, ==, b->revision);
  g_assert_cmpstr (a->paragraph, ==, b->paragraph);
  g_assert_cmpstr (a->checked_by, ==, b->checked_by);
  g_assert_cmpstr (a->note, ==, b->note);
}

static void
test_every_field (void)
{
  g_autoptr (BondPointSpec) spec = full_point (), back = NULL;
  xmlNode *root = xmlNewNode (NULL, BAD_CAST "points");
  g_autoptr (GError) error = NULL;

  bond_point_spec_write (root, spec, FALSE);
  back = bond_point_spec_read (root->children, "q-1", "test.xml", &error);
  g_assert_no_error (error);
  g_assert_cmpstr (back->from, ==, spec->from);
  g_assert_cmpstr (back->to, ==, spec->to);
  g_assert_cmpstr (back->why, ==, spec->why);
  g_assert_cmpstr (back->watch, ==, spec->watch);
  g_assert_cmpstr (back->basis, ==, spec->basis);
  g_assert_cmpstr (back->panel, ==, spec->panel);
  g_assert_cmpstr (back->limit, ==, spec->limit);
  g_assert_cmpint (back->condition, ==, spec->condition);
  g_assert_cmpint (back->sample_every, ==, spec->sample_every);
  g_assert_true (back->wl.known && !back->sta.known && !back->bl.known);
  g_assert_false (back->from_template);
  g_assert_cmpfloat (bond_point_spec_in_view (back, "front")->y, ==, -3);
  g_assert_cmpstr (bond_point_spec_in_view (back, "front")->drawn_zone, ==, "500");
  assert_rows_equal (back->own_limit, spec->own_limit);
  xmlFreeNode (root);
}

/* Several limits in one attribute; a name that is none is told by itself, with its line. */
static void
test_several_limits (void)
{
  static const struct
  {
    const char *limit, *unsound; /* NULL: read back as it is */
  } rows[] = {
    { "example/J-5 example/P1", NULL },  { "example/J-5 P1 example/E1", NULL },
    { "example/J-5 /P1", "“/P1”" },      { "example/J-5 example/J-5", "“example/J-5”" },
    { "example/J-5  example/P1", "“”" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (BondPointSpec) spec = full_point (), back = NULL;
      xmlNode *root = xmlNewNode (NULL, BAD_CAST "points");
      g_autoptr (GError) error = NULL;

      g_free (spec->limit);
      spec->limit = g_strdup (rows[i].limit);
      bond_point_spec_write (root, spec, FALSE);
      back = bond_point_spec_read (root->children, "q-1", "test.xml", &error);
      g_assert_true ((back == NULL) == (rows[i].unsound != NULL));
      if (back != NULL)
        g_assert_cmpstr (back->limit, ==, rows[i].limit);
      else
        g_assert_nonnull (strstr (error->message, rows[i].unsound));
      xmlFreeNode (root);
    }
}

/* Left out in the file, but never NULL in a row: others print them. */
static void
test_row_texts (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BondLimitSet) set = NULL;
  g_autofree char *text = NULL;
  BondAdoptKind what;
  const BondLimitRow *row;

  set = load (limits_text, &what, NULL, &error);
  g_assert_no_error (error);
  row = bond_limit_set_find (set, "J2");
  g_assert_cmpstr (row->covers, ==, "");
  g_assert_cmpstr (row->document, ==, "");
  text = bond_register_to_text (what, set, NULL);
  g_assert_null (strstr (text, "<covers"));
  g_assert_null (strstr (text, "document=\"\""));
}

static void
test_person (void)
{
  g_autoptr (BondPerson) person = bond_person_new ("p-okafor", 3, "N. Okafor", "B1-77", NULL);
  g_autofree char *text = bond_register_to_text (BOND_ADOPT_PERSON, person, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondPerson) back = NULL;
  BondAdoptKind what;

  back = load (text, &what, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (what, ==, BOND_ADOPT_PERSON);
  g_assert_cmpstr (back->id, ==, "p-okafor");
  g_assert_cmpint (back->revision, ==, 3);
  g_assert_cmpstr (back->name, ==, "N. Okafor");
  g_assert_cmpstr (back->stamp, ==, "B1-77");
  g_assert_null (back->role);
}

static void
test_earlier (void)
{
  g_autoptr (BondEarlier) earlier = bond_earlier_new ("6f0c", "2026-03-02"), back = NULL;
  BondEarlierItem over = { (char *)"q-1",
                           { 30000000, 0, BOND_QUALIFIER_OVER },
                           (char *)"fail",
                           (char *)"<=0.0025",
                           (char *)"reworked 2026-03-02" };
  BondEarlierItem exact = { (char *)"q-2", { 2777777, 1, BOND_QUALIFIER_NONE }, (char *)"pass", NULL, NULL };
  xmlNode *root = xmlNewNode (NULL, BAD_CAST "entry");
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;
  const BondEarlierItem *item;

  xmlSetNs (root, xmlNewNs (root, BAD_CAST BOND_NS_SURVEY, NULL));
  bond_earlier_add (earlier, &over);
  bond_earlier_add (earlier, &exact);
  bond_register_write (root, BOND_ADOPT_EARLIER, earlier);
  back = bond_register_read (root->children, &what, "test.xml", &error);
  g_assert_no_error (error);
  g_assert_cmpint (what, ==, BOND_ADOPT_EARLIER);
  g_assert_cmpstr (back->date, ==, "2026-03-02");
  item = bond_earlier_find (back, "q-1");
  g_assert_cmpint (item->result.qualifier, ==, BOND_QUALIFIER_OVER);
  g_assert_cmpstr (item->note, ==, "reworked 2026-03-02");
  item = bond_earlier_find (back, "q-2");
  g_assert_cmpint (item->result.nohm, ==, 2777777);
  g_assert_cmpint (item->result.rest, ==, 1);
  g_assert_null (item->limit);
  xmlFreeNode (root);
}

/* Inside a survey the gate has seen the survey's format, not the register's. */
static void
test_newer_inside (void)
{
  g_autoptr (BondPerson) person = bond_person_new ("p", 1, "P", NULL, NULL);
  xmlNode *root = xmlNewNode (NULL, BAD_CAST "entry");
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;

  bond_register_write (root, BOND_ADOPT_PERSON, person);
  xmlSetProp (root->children, BAD_CAST "format", BAD_CAST "9");
  g_assert_null (bond_register_read (root->children, &what, "test.xml", &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_NEWER);
  xmlFreeNode (root);
}

static void
test_save (void)
{
  g_autofree char *folder = g_dir_make_tmp ("bond-register-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "p.xml", NULL),
                  *none = g_build_filename (folder, "no", "p.xml", NULL);
  g_autoptr (BondPerson) person = bond_person_new ("p", 1, "P", NULL, NULL), back = NULL;
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;

  g_assert_true (bond_register_save (path, BOND_ADOPT_PERSON, person, &error));
  back = bond_register_load (path, &what, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (back->name, ==, "P");
  g_assert_false (bond_register_save (none, BOND_ADOPT_PERSON, person, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE);
  g_assert_nonnull (strstr (error->message, none));
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  g_test_add_func ("/register-file/texts-are-fine", test_texts_are_fine);
  g_test_add_func ("/register-file/spoilt", test_spoilt);
  g_test_add_func ("/register-file/without-schema", test_without_schema);
  g_test_add_func ("/register-file/not-a-register", test_not_a_register);
  g_test_add_func ("/register-file/shipped-there-and-back", test_shipped_there_and_back);
  g_test_add_func ("/register-file/every-field", test_every_field);
  g_test_add_func ("/register-file/several-limits", test_several_limits);
  g_test_add_func ("/register-file/row-texts", test_row_texts);
  g_test_add_func ("/register-file/person", test_person);
  g_test_add_func ("/register-file/earlier", test_earlier);
  g_test_add_func ("/register-file/newer-inside", test_newer_inside);
  g_test_add_func ("/register-file/save", test_save);
  return g_test_run ();
}
