#!/usr/bin/env python3
"""Asks an engine for kit, with nothing but Python's own library: JSON over HTTP.

    go run ./server --http-listen 127.0.0.1:4861 &
    python3 clients/till/examples/suggest.py

The first argument is the engine's address; http://127.0.0.1:4861 where it is left out.
"""

import json
import sys
import urllib.error
import urllib.request

ENGINE = sys.argv[1] if len(sys.argv) > 1 else "http://127.0.0.1:4861"


class Refused(Exception):
    """The engine cannot answer: its message, and each field to change."""


def call(method, question):
    """Makes one call, such as KitService/SuggestKits, and returns the answer."""
    request = urllib.request.Request(
        f"{ENGINE}/pondwright.v1.{method}",
        data=json.dumps(question).encode(),
        headers={"Content-Type": "application/json"},
    )
    try:
        with urllib.request.urlopen(request, timeout=30) as answer:
            return json.load(answer)
    except urllib.error.HTTPError as refused:
        raise Refused(json.load(refused)) from None


def suggest(quick_brief):
    return call("KitService/SuggestKits", {"quick_brief": quick_brief, "max_kits": 1})


def main():
    brief = {
        "volume_l": 2000,
        "fish": "SPECIES_GOLDFISH",
        "fish_count": 12,
        "fall": {"height_m": 0.45, "width_cm": 20, "sheet": "SHEET_THIN"},
        "hose_length_m": 3,
        "energy_price_per_kwh": 0.28,
    }
    answer = suggest(brief)
    for kit in answer["kits"]:
        cost = kit["cost"]
        print(f"{cost['currency']} {cost['price']:.2f} to buy, {cost['energy_cost_per_year']:.2f} a year for electricity")
        for part in ("pump", "hose", "filter", "lamp_unit"):
            if kit.get(part):
                item = kit[part]["item"]
                print(f"  {item['item_number']}  {item['description']}")
        for state in kit["states"]:
            flow = state["duty"]["flow_l_per_h"]["expected"]
            print(f"  {flow:,.0f} L/h  {state['state']}")

    # A misspelt field is refused by its name, and a number that cannot be by its field: never a wrong answer instead.
    for wrong in ({**brief, "hose_lenght_m": 3}, {**brief, "hose_length_m": 3000}):
        try:
            suggest(wrong)
        except Refused as refused:
            print("refused:", refused.args[0]["message"])


if __name__ == "__main__":
    main()
