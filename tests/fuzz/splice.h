/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bytes without sense seldom get past the first tag.  A splice turns them into
 * changes of a sound text: another value in one attribute, or something put in
 * between, so that the readers behind the tags see them too.
 */
#pragma once

#include <glib.h>

/**
 * fuzz_splice: @data is a row of changes: two bytes say where, the rest up to a line break is what.
 * Above half of the first byte's range the text is put in there as it is, below it replaces an attribute's value.
 *
 * Returns: (transfer full): NUL-terminated; @length may count NUL bytes before it
 */
char *fuzz_splice (const char *text, const guint8 *data, gsize size, gsize *length);

/**
 * fuzz_register: one execution: @data as a file through the gate, or spliced into @text and read with or without its
 * schema.  What is accepted must come out, go in and come out again as the same bytes.
 */
int fuzz_register (const char *text, const guint8 *data, gsize size);
