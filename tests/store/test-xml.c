/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The gate itself: the look over the bytes, numbers without a locale, canonical form
 * of one element, dumping.
 */
#include "store/scan.h"
#include "store/schema.h"

#include <libxml/c14n.h>
#include <libxml/parser.h>
#include <math.h>
#include <string.h>

/* ---- the look ---- */

typedef struct
{
  const char *text;
  const char *word; /* in the refusal; NULL: goes through */
  int line;
} Look;

static const Look looks[] = {
  { "<a/>", NULL, 0 },
  { "\xef\xbb\xbf<?xml version=\"1.0\"?>\n<a>x</a>\n", NULL, 0 },
  { "<a b='>' c=\"<\"/>", NULL, 0 },
  { "<a><!-- <b --><![CDATA[<c ]]></a>", NULL, 0 },
  { "", "empty", 0 },
  { " \n\t", "empty", 0 },
  { "\xef\xbb\xbf", "empty", 0 },
  { "hello", "not XML", 0 },
  { "{\"a\": 1}", "not XML", 0 },
  { "<a>\n<b\n", "cut off", 2 },
  { "<a>\n</a", "cut off", 2 },
  { "<a>\n<!-- ", "cut off", 2 },
  { "<a b='", "cut off", 1 },
  { "\n\n<!DOCTYPE a><a/>", "DOCTYPE", 3 },
  { "<a><!ENTITY b></a>", "DOCTYPE", 1 },
  { "<a>\n<?php ?></a>", "processing instruction", 2 },
};

static void
test_looks (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      BondScan scan = { 0 };
      int line = -1;
      g_autofree char *trouble = bond_scan_xml (looks[i].text, strlen (looks[i].text), &scan, &line);

      bond_scan_clear (&scan);
      g_test_message ("%s: %s", looks[i].text, trouble);
      if (looks[i].word == NULL)
        g_assert_cmpstr (trouble, ==, NULL);
      else
        {
          g_assert_nonnull (strstr (trouble, looks[i].word));
          g_assert_cmpint (line, ==, looks[i].line);
        }
    }
}

static void
test_nul_is_located (void)
{
  const char text[] = "<a>\n\n\0</a>";
  BondScan scan = { 0 };
  int line = 0;
  g_autofree char *trouble = bond_scan_xml (text, sizeof text - 1, &scan, &line);

  bond_scan_clear (&scan);
  g_assert_nonnull (strstr (trouble, "NUL"));
  g_assert_cmpint (line, ==, 3);
}

static void
test_children_and_their_bytes (void)
{
  const char *text = "<r x='1'>\n <a>t<b/></a><c\n d='>'/> <a-b></a-b>\n</r>";
  const char *expected[] = { "<a>t<b/></a>", "<c\n d='>'/>", "<a-b></a-b>" };
  BondScan scan = { 0 };
  int line = 0;
  g_autofree char *trouble = bond_scan_xml (text, strlen (text), &scan, &line);

  g_assert_cmpstr (trouble, ==, NULL);
  g_assert_cmpuint (scan.root_end, ==, strlen ("<r x='1'>"));
  g_assert_cmpuint (scan.children->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < scan.children->len; i++)
    {
      const BondSpan *span = &g_array_index (scan.children, BondSpan, i);

      g_assert_cmpmem (text + span->start, span->end - span->start, expected[i], strlen (expected[i]));
    }
  g_assert_true (bond_span_is (&g_array_index (scan.children, BondSpan, 0), text, "a"));
  g_assert_false (bond_span_is (&g_array_index (scan.children, BondSpan, 2), text, "a"));
  bond_scan_clear (&scan);
}

/* One attribute fewer than too many goes through. */
static void
test_attribute_limit (void)
{
  for (int n = BOND_SCAN_MAX_ATTRIBUTES; n <= BOND_SCAN_MAX_ATTRIBUTES + 1; n++)
    {
      g_autoptr (GString) text = g_string_new ("<a");
      BondScan scan = { 0 };
      int line = 0;
      g_autofree char *trouble = NULL;

      for (int i = 0; i < n; i++)
        g_string_append_printf (text, " a%d=''", i);
      g_string_append (text, "/>");
      trouble = bond_scan_xml (text->str, text->len, &scan, &line);
      bond_scan_clear (&scan);
      g_assert_true ((trouble != NULL) == (n > BOND_SCAN_MAX_ATTRIBUTES));
    }
}

/* ---- one element ---- */

static xmlDoc *
parse (const char *text)
{
  xmlDoc *doc = xmlReadMemory (text, (int)strlen (text), NULL, NULL, 0);

  g_assert_nonnull (doc);
  return doc;
}

/* The one element's form is what libxml2 makes of it inside its whole document, as the standard has it. */
static void
test_canonical_form (void)
{
  xmlDoc *doc = parse ("<r xmlns='urn:r' xmlns:p='urn:p' xmlns:q='urn:q'><a d='1' z='2' b='&#10;&quot;'><p:c/>&lt;&#13;"
                       "<!-- no -->\xc2\xb5</a>tail<a/></r>");
  xmlNode *a = bond_xml_child (xmlDocGetRootElement (doc), "a");
  xmlNode *next = a->next;
  g_autoptr (GBytes) form = bond_xml_canonical (a, "d");
  const char *expected
      = "<a xmlns=\"urn:r\" b=\"&#xA;&quot;\" z=\"2\"><p:c xmlns:p=\"urn:p\"></p:c>&lt;&#xD;\xc2\xb5</a>";
  gsize length;
  const char *text = g_bytes_get_data (form, &length);

  g_assert_cmpmem (text, length, expected, strlen (expected));
  g_assert_true (a->next == next);
  g_assert_true (a->parent == xmlDocGetRootElement (doc));
  xmlFreeDoc (doc);
}

/* Only the element's own attribute is left out. */
static void
test_canonical_omits_once (void)
{
  xmlDoc *doc = parse ("<a d='1'><b d='2'/></a>");
  g_autoptr (GBytes) form = bond_xml_canonical (xmlDocGetRootElement (doc), "d");
  gsize length;
  const char *text = g_bytes_get_data (form, &length);

  g_assert_cmpmem (text, length, "<a><b d=\"2\"></b></a>", 20);
  xmlFreeDoc (doc);
}

static void
test_numbers (void)
{
  static const char *const bad_int[] = { "", "1.0", " 1", "0x10", "9223372036854775808", "1e3", "--1", NULL };
  static const char *const bad_double[]
      = { "", "1,5", "nan", "NaN", "inf", "-Infinity", "0x1p3", "1e999", " 1", "1 ", NULL };
  xmlDoc *doc = parse ("<a/>");
  xmlNode *a = xmlDocGetRootElement (doc);
  g_autofree char *text = NULL;
  gint64 whole = 0;
  double real = 0;

  bond_xml_set_int64 (a, "min", G_MININT64);
  g_assert_true (bond_xml_get_int64 (a, "min", &whole));
  g_assert_cmpint (whole, ==, G_MININT64);
  bond_xml_set_double (a, "third", 1.0 / 3.0);
  g_assert_true (bond_xml_get_double (a, "third", &real));
  g_assert_cmpfloat (real, ==, 1.0 / 3.0);
  bond_xml_set_double (a, "short", 759.1);
  text = bond_xml_get (a, "short");
  g_assert_cmpstr (text, ==, "759.1");
  for (guint i = 0; bad_int[i] != NULL; i++)
    {
      xmlSetProp (a, BAD_CAST "x", BAD_CAST bad_int[i]);
      g_assert_false (bond_xml_get_int64 (a, "x", &whole));
    }
  for (guint i = 0; bad_double[i] != NULL; i++)
    {
      xmlSetProp (a, BAD_CAST "x", BAD_CAST bad_double[i]);
      g_assert_false (bond_xml_get_double (a, "x", &real));
    }
  g_assert_false (bond_xml_get_int64 (a, "absent", &whole));
  xmlFreeDoc (doc);
}

/* A line is a line, and reads back as what it was. */
static void
test_dump_is_one_line (void)
{
  xmlDoc *doc = parse ("<a/>");
  g_autofree char *text = NULL;
  g_autofree char *note = NULL;
  g_autofree char *attribute = NULL;
  xmlDoc *again;

  bond_xml_set (xmlDocGetRootElement (doc), "x", "one\ntwo\t\"<&>'\r");
  bond_xml_set_text (xmlDocGetRootElement (doc), "note", "one\ntwo & <three>\r\n\xce\xa9");
  text = bond_xml_dump (xmlDocGetRootElement (doc));
  g_assert_null (strchr (text, '\n'));
  g_assert_nonnull (strstr (text, "\xce\xa9"));
  again = parse (text);
  note = bond_xml_get_text (xmlDocGetRootElement (again), "note");
  attribute = bond_xml_get (xmlDocGetRootElement (again), "x");
  g_assert_cmpstr (note, ==, "one\ntwo & <three>\r\n\xce\xa9");
  g_assert_cmpstr (attribute, ==, "one\ntwo\t\"<&>'\r");
  xmlFreeDoc (doc);
  xmlFreeDoc (again);
}

/* Every bundled schema compiles. */
static void
test_schemas_compile (void)
{
  static const char *const roots[] = { "survey", "airframe", "limit-set", "instrument", "person", "house", NULL };

  for (guint i = 0; roots[i] != NULL; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (BondSchema) schema = bond_schema_new (bond_dialect_find (roots[i]), &error);

      g_assert_no_error (error);
      g_assert_nonnull (schema);
    }
  g_assert_null (bond_dialect_find ("html"));
}

static void
test_problem_text (void)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autofree char *one = NULL;
  g_autofree char *two = NULL;

  g_ptr_array_add (problems, bond_problem_new ("a.xml", 7, "%s", "wrong"));
  g_ptr_array_add (problems, bond_problem_new ("a.xml", 0, "%s", "wrong"));
  one = bond_problem_to_string (problems->pdata[0]);
  two = bond_problem_to_string (problems->pdata[1]);
  g_assert_cmpstr (one, ==, "a.xml:7: wrong");
  g_assert_cmpstr (two, ==, "a.xml: wrong");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  g_test_add_func ("/store/xml/looks", test_looks);
  g_test_add_func ("/store/xml/nul-is-located", test_nul_is_located);
  g_test_add_func ("/store/xml/children-and-their-bytes", test_children_and_their_bytes);
  g_test_add_func ("/store/xml/attribute-limit", test_attribute_limit);
  g_test_add_func ("/store/xml/canonical-form", test_canonical_form);
  g_test_add_func ("/store/xml/canonical-omits-once", test_canonical_omits_once);
  g_test_add_func ("/store/xml/numbers", test_numbers);
  g_test_add_func ("/store/xml/dump-is-one-line", test_dump_is_one_line);
  g_test_add_func ("/store/xml/schemas-compile", test_schemas_compile);
  g_test_add_func ("/store/xml/problem-text", test_problem_text);
  return g_test_run ();
}
