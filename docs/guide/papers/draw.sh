#!/bin/sh
# Draws the pictures of batch-sheet.md, label-draft.md and stability-plan.md anew: each a printed page in grey.
# Needs the packed jar, chromium and poppler-utils; run it from anywhere.
set -eu
cd "$(dirname "$0")/../../.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cream=docs/examples/wind-shelter-gel-cream.yaml

# draw NAME PAGE COMMAND…
draw() {
  name=$1; page=$2; shift 2
  java -jar rules-api/target/gelwright.jar "$@" --on 2026-11-25 --format html --out "$work/$name.html" "$cream"
  chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer --user-data-dir="$work/profile" \
    --print-to-pdf="$work/$name.pdf" "file://$work/$name.html" 2>/dev/null
  pdftoppm -singlefile -f "$page" -l "$page" -r 80 -gray -png "$work/$name.pdf" "docs/guide/papers/$name"
}

draw batch-sheet 2 batch --make 2kg
draw label-draft 1 label
draw stability-plan 1 stability
