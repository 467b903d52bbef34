/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Airframes from outside: zones, views, rings, paths and points.
 * No crash, no hang; a refusal is a located message; what is accepted is stable.
 */
#include "splice.h"

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static const char sound[]
    = "<airframe xmlns='urn:bondwright:airframe' format='1' id='box' revision='2' name='Box' units='in'>\n"
      "<note>n</note><datum sta='s' bl='b' wl='w'/>\n"
      "<zones>\n"
      "<zone number='500' name='Wing' level='major' side='left'/>\n"
      "<zone number='510' name='Part' level='zone' side='left' parent='500' mirror='610'/>\n"
      "<zone number='610' name='Other' level='zone' side='right' mirror='510'/>\n"
      "</zones>\n"
      "<view id='plan-upper' title='Plan' width='100' height='50' toward='+WL'>\n"
      "<axis screen='x' of='BL' zero='50' sign='1'/>\n"
      "<axis screen='y' of='STA' zero='-10' sign='1'/>\n"
      "<ruler major='10' minor='5'/>\n"
      "<outline d='M0 0L10 0C10 1 10 2 10 10Z'/>\n"
      "<boundaries d='M0 0L10 0'/>\n"
      "<detail class='panel' layer='over' d='M1 1L2 2'/>\n"
      "<zone number='510'>\n"
      "<polygon points='0,0 10,0 10,10'/>\n"
      "<label x='5' y='2.5' size='3' rotate='-90' leader-x='1' leader-y='2'/>\n"
      "</zone></view>\n"
      "<points>\n"
      "<point id='q-1' number='510-J01' class='structure' zone='510' limit='example/J1' sta='12' bl='-42' wl='0' "
      "condition='new' sample-every='3' panel='511AB'>\n"
      "<from>a</from><to>b</to>\n"
      "<at view='plan-upper' x='8' y='2' home='yes'/>\n"
      "</point>\n"
      "</points></airframe>\n";

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  return fuzz_register (sound, data, size);
}
