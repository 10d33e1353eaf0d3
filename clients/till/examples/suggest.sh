#!/bin/sh
# Asks an engine for kit by curl, as till software in any language would: JSON over HTTP, here for a small raised pond with goldfish.
#
#	go run ./server --http-listen 127.0.0.1:4861 &
#	clients/till/examples/suggest.sh
#
# The first argument is the engine's address; http://127.0.0.1:4861 where it is left out.
set -eu
engine=${1:-http://127.0.0.1:4861}

curl --silent --show-error --fail-with-body \
  --header 'Content-Type: application/json' \
  --data '{
    "quick_brief": {
      "size": {"length_m": 2.4, "width_m": 1.5, "depth_m": 0.55},
      "fish": "SPECIES_GOLDFISH", "fish_count": 12,
      "fall": {"height_m": 0.45, "width_cm": 20, "sheet": "SHEET_THIN"},
      "hose_length_m": 3, "energy_price_per_kwh": 0.28
    },
    "max_kits": 1
  }' \
  "$engine/pondwright.v1.KitService/SuggestKits"
echo
