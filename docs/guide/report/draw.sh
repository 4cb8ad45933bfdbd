#!/bin/sh
# Draws the pictures of docs/guide/report.md anew from the program as it is. Run it in the project's folder after
# mvn package; it needs Chromium and Poppler's pdftoppm. The pages are those of a print on A4.
set -eu
folder=docs/guide/report
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
browser() {
  "${CHROMIUM:-chromium}" --headless --no-sandbox --disable-gpu --hide-scrollbars --user-data-dir="$work/profile" "$@" 2>/dev/null
}
java -jar rules-api/target/gelwright.jar review --format html --on 2026-11-25 --fail-on never --include remedies,headroom \
  --out "$work/report.html" docs/examples/nettle-calm-gel.yaml
browser --no-pdf-header-footer --print-to-pdf="$work/report.pdf" "file://$work/report.html"
pdftoppm -png -r 75 -f 1 -l 1 -singlefile "$work/report.pdf" "$folder/first-page"
pdftoppm -png -r 75 -f 3 -l 3 -singlefile "$work/report.pdf" "$folder/findings"
# The first page that says something, as a picture.
page_with() {
  pages=$(pdfinfo "$1" | sed -n 's/^Pages: *//p')
  for page in $(seq 1 "$pages"); do
    if pdftotext -f "$page" -l "$page" "$1" - | grep -q "$2"; then
      pdftoppm -png -r 75 -f "$page" -l "$page" -singlefile "$1" "$3"
      return
    fi
  done
}
page_with "$work/report.pdf" 'Undissociated part of preservatives' "$folder/pictures"
# A name that is not in the catalogue.
sed 's/Aloe Barbadensis Leaf Juice/Symphytum Asperum Leaf Extract/' docs/examples/nettle-calm-gel.yaml > "$work/nettle-calm-gel.yaml"
java -jar rules-api/target/gelwright.jar review --format html --on 2026-11-25 --fail-on never --out "$work/open.html" \
  "$work/nettle-calm-gel.yaml"
browser --no-pdf-header-footer --print-to-pdf="$work/open.pdf" "file://$work/open.html"
page_with "$work/open.pdf" 'What is asked of it' "$folder/not-checked"
