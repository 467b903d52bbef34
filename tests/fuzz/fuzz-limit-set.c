/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limit sets from outside: values, relations and tiers.
 * No crash, no hang; a refusal is a located message; what is accepted is stable.
 */
#include "splice.h"

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static const char sound[]
    = "<limit-set xmlns='urn:bondwright:limit-set' format='1' id='mine' revision='1' name='Mine'>\n"
      "<row code='J1' class='structure' method='four-terminal' volts='500' scope='joint' connectors='any' "
      "mounting='any' pair='yes' default='yes' verified='no'>\n"
      "<in-service>\n"
      "<upper relation='le' value='5' unit='mOhm'/>\n"
      "<lower relation='ge' value='1' unit='uOhm'/>\n"
      "</in-service>\n"
      "<stricter><upper relation='le' value='2.5' unit='mOhm'/></stricter>\n"
      "<source document='Mine' revision='1' paragraph='2' checked-by='me'/><note>n</note></row>\n"
      "<row code='J2' class='structure' method='visual'><source/></row>\n"
      "</limit-set>\n";

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  return fuzz_register (sound, data, size);
}
