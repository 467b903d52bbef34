#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A catalogue of longer, accented words, made from the sources: what it cuts off, a translation will cut off too.

pseudo-catalogue.py TOP LOCALE-FOLDER writes LOCALE-FOLDER/qps/LC_MESSAGES/bondwright.mo (needs xgettext and msgfmt).
Run with it: LOCALE-FOLDER is the program's own (share/locale of its prefix), in any locale but C, LANGUAGE=qps.
pseudo-catalogue.py --check tries the rewriting alone, for the test.

Every text grows by about 40 %, keeps its directives (%s, %1$d), its mnemonic (_x), tags, entities, escapes and links,
and stands in brackets: a closing bracket that cannot be seen was cut off.  Words without accents were not translatable.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

GROWTH = 0.4
ACCENTS = str.maketrans("aceinorsuyzACEINOSUYZ", "áçéíñöřšûýžÁÇÉÍÑÖŠÛÝŽ")
# What must come through as it is: directives, tags, entities, escapes of the catalogue, mnemonics, links.
KEPT = re.compile(r"%(?:\d+\$)?[-+ #0']*(?:\*|\d+)?(?:\.(?:\*|\d+))?(?:hh|h|ll|l|z|j|t)?[a-zA-Z%]"
                  r"|</?[a-z][^>]*>|&[a-z]+;|\\.|_\w|https?://\S+")
FILL = "~ "


def accented(text):
    at, out = 0, []
    for kept in KEPT.finditer(text):
        out += [text[at:kept.start()].translate(ACCENTS), kept.group()]
        at = kept.end()
    return "".join(out) + text[at:].translate(ACCENTS)


def longer(text):
    """Leading and trailing white space stays outside: some texts are joined."""
    if text.strip() == "":
        return text
    lead, trail = re.match(r"(?:\s|\\n)*", text).group(), re.search(r"(?:\s|\\n)*$", text).group()
    core = text[len(lead):len(text) - len(trail)]
    fill = (FILL * len(core))[:max(1, round(len(KEPT.sub("", core)) * GROWTH) - 2)].rstrip() or "~"
    return f"{lead}[{accented(core)} {fill}]{trail}"


def entries(pot):
    """(msgctxt, msgid, msgid_plural) with the escapes of the file; the header is left out."""
    fields, key, found = {}, None, {}
    for line in [*pot.splitlines(), ""]:
        match = re.match(r'(?:(msgctxt|msgid_plural|msgid|msgstr(?:\[\d\])?) )?"(.*)"$', line)
        if match:
            key = match.group(1) or key
            fields[key] = fields.get(key, "") + match.group(2)
        elif line == "" and fields:
            if fields.get("msgid"):
                text = (fields.get("msgctxt"), fields["msgid"])
                found[text] = fields.get("msgid_plural") or found.get(text)
            fields, key = {}, None
    return [(*text, plural) for text, plural in found.items()]


def catalogue(pot):
    out = ['msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n'
           '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n']
    for context, text, plural in entries(pot):
        out.append((f'msgctxt "{context}"\n' if context else "") + f'msgid "{text}"')
        out.append(f'msgid_plural "{plural}"\nmsgstr[0] "{longer(text)}"\nmsgstr[1] "{longer(plural)}"\n' if plural
                   else f'msgstr "{longer(text)}"\n')
    return "\n".join(out)


def make(top, folder):
    target = folder / "qps/LC_MESSAGES/bondwright.mo"
    target.parent.mkdir(parents=True, exist_ok=True)
    # With its header: without, xgettext drops every character that is not ASCII.
    pot = subprocess.run(["xgettext", "--directory", top, "--files-from", top / "po/POTFILES", "--from-code=UTF-8",
                          "--keyword=_", "--keyword=N_", "--keyword=C_:1c,2", "--keyword=NC_:1c,2",
                          "--keyword=g_dngettext:2,3", "--keyword=ngettext:1,2", "--output=-"],
                         check=True, capture_output=True, text=True, encoding="utf-8").stdout
    with tempfile.NamedTemporaryFile("w", suffix=".po", encoding="utf-8") as po:
        po.write(catalogue(pot))
        po.flush()
        subprocess.run(["msgfmt", "-o", target, po.name], check=True)
    print(f"{len(entries(pot))} texts in {target}")


def kept_as_they_are():
    cases = {
        "Record": "[Réçöřd ~]",
        "_Look": "[_Löök ~]",
        "%1$s of %2$u": "[%1$s öf %2$u ~]",
        "<b>Pass</b>": "[<b>Pášš</b> ~]",
        "A\\n": "[Á ~]\\n",
        "": "",
    }
    return [f"{text!r} became {longer(text)!r}" for text, want in cases.items() if longer(text) != want]


def growth():
    sample = "Every reading of this survey is kept in the journal"
    grown = len(longer(sample)) / len(sample)
    return [] if 1.3 <= grown <= 1.6 else [f"{grown:.2f}"]


def check():
    import tap
    tap.run([("directives, mnemonics, tags and escapes stay", kept_as_they_are),
             ("a text grows by 30 to 60 %", growth)])


if __name__ == "__main__":
    if sys.argv[1:] == ["--check"]:
        check()
    make(pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]))
