/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings that come from outside: tables stored in a meter and read out of it,
 * and instruments that speak over a line.  Neither is built yet; the layer stands
 * so that what they need has its place between store and library.
 */
