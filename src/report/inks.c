/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The colours of drawings: one set for each look of the window and one for paper.
 * Pass is drawn in the text ink, so that colour only says where to look.  Which
 * set is in force is left to the window.
 */
#include "report/marks.h"

BondRgb
bond_rgb (guint32 rrggbb)
{
  BondRgb rgb = { (rrggbb >> 16 & 0xff) / 255.0, (rrggbb >> 8 & 0xff) / 255.0, (rrggbb & 0xff) / 255.0 };

  return rgb;
}

#define RGB(rrggbb)                                                                                                    \
  {                                                                                                                    \
    ((rrggbb) >> 16 & 0xff) / 255.0, ((rrggbb) >> 8 & 0xff) / 255.0, ((rrggbb)&0xff) / 255.0                           \
  }

const BondInks *
bond_inks_light (void)
{
  static const BondInks inks = {
    .text = RGB (0x1f2426),
    .quiet = RGB (0x555d60),
    .todo = RGB (0x76848a),
    .pass = RGB (0x1f2426),
    .guard = RGB (0xb07a00),
    .fail = RGB (0x9e2009),
    .history = RGB (0x6f4bbb),
    .accent = RGB (0x1c62b9),
    .paper = RGB (0xfbfbfa),
    .zone_tint = { RGB (0xffffff), RGB (0xf0f1f0) },
    .line = RGB (0xc3c8ca),
    .outline = RGB (0x4a5357),
  };

  return &inks;
}

const BondInks *
bond_inks_dark (void)
{
  static const BondInks inks = {
    .text = RGB (0xeeeeec),
    .quiet = RGB (0xbcbfbd),
    .todo = RGB (0x97a0a3),
    .pass = RGB (0xeeeeec),
    .guard = RGB (0xffcf5c),
    .fail = RGB (0xf07a5e),
    .history = RGB (0xc08af0),
    .accent = RGB (0x8fbcf2),
    .paper = RGB (0x242526),
    .zone_tint = { RGB (0x2a2b2c), RGB (0x323435) },
    .line = RGB (0x565b5d),
    .outline = RGB (0xa9afb1),
  };

  return &inks;
}

const BondInks *
bond_inks_one (void)
{
  static const BondInks inks = {
    .text = RGB (0x000000),
    .quiet = RGB (0x4a4a4a),
    .accent = RGB (0x000000),
    .paper = RGB (0xffffff),
    .zone_tint = { RGB (0xffffff), RGB (0xf1f1f1) },
    .line = RGB (0xb0b0b0),
    .outline = RGB (0x3c3c3c),
  };

  return &inks;
}
