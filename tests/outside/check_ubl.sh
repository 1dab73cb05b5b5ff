#!/bin/bash
# Holds our electronic invoices against the UBL 2.1 schemas of OASIS, by xmllint.
# usage: check_ubl.sh PROGRAM SOURCE_FOLDER; exit codes: 0 good, 1 not, 77 where schemas or xmllint are absent.
set -uo pipefail
program=$1
shared=${WEATHERSTRUCK_SHARED:-$2/../shared}
schemas=$shared/data/einvoice/ubl-2.1-schemas.tar.xz

if ! command -v xmllint >/dev/null || ! command -v xz >/dev/null; then
  echo "skipped: xmllint and xz are needed (on Debian: libxml2-utils, xz-utils)"
  exit 77
fi
if [ ! -r "$schemas" ]; then
  echo "skipped: there is no $schemas"
  exit 77
fi
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
tar -C "$folder" -xJf "$schemas" || exit 1
mkdir "$folder/papers"
"$program" "$folder/papers" || exit 1
judged=0
for kind in Invoice:invoice CreditNote:credit-note; do
  schema=$folder/ubl-2.1-oasis/xsdrt/maindoc/UBL-${kind%%:*}-2.1.xsd
  papers=("$folder/papers/${kind##*:}"-*.xml)
  xmllint --nonet --noout --schema "$schema" "${papers[@]}" || exit 1
  judged=$((judged + ${#papers[@]}))
  # A judge that takes everything would be none: an unknown element must be found.
  sed 's,</cbc:ID>,</cbc:ID><cbc:Nonsense/>,' "${papers[0]}" >"$folder/bad.xml"
  if xmllint --nonet --noout --schema "$schema" "$folder/bad.xml" 2>/dev/null; then
    echo "the schema took a paper with an element that it does not know"
    exit 1
  fi
done
echo "$judged papers hold to the schemas"
[ "$judged" -ge 8 ]
