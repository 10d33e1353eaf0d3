"""Units of column headings, worth in the contract's own unit, from scipy.constants (CODATA and the exact definitions)."""
import json
import sys

try:
    from scipy import constants as c
except ImportError:
    print("scipy is missing (Debian: python3-scipy)", file=sys.stderr)
    sys.exit(3)

litre_per_hour = c.liter / c.hour
metre_of_water = 1000 * c.g  # Pa: water of 1000 kg/m³ under standard gravity

json.dump({
    "flow_l_per_h": {
        "flow_l_per_min": c.liter / c.minute / litre_per_hour,
        "flow_l_per_s": c.liter / litre_per_hour,
        "flow_m3_per_h": 1 / c.hour / litre_per_hour,
        "flow_uk_gal_per_h": c.gallon_imp / c.hour / litre_per_hour,
        "flow_uk_gal_per_min": c.gallon_imp / c.minute / litre_per_hour,
        "flow_us_gal_per_h": c.gallon_US / c.hour / litre_per_hour,
        "flow_us_gal_per_min": c.gallon_US / c.minute / litre_per_hour,
    },
    "head_m": {"head_ft": c.foot, "head_kpa": 1000 / metre_of_water, "head_bar": c.bar / metre_of_water},
    "bore_mm": {"bore_cm": 10, "bore_in": c.inch / c.milli},
    "roll_width_m": {"roll_width_mm": c.milli, "roll_width_cm": c.centi, "roll_width_ft": c.foot, "roll_width_in": c.inch},
    "grown_length_cm": {"grown_length_mm": c.milli / c.centi, "grown_length_m": 1 / c.centi, "grown_length_in": c.inch / c.centi},
    "medium_l": {"medium_m3": 1 / c.liter, "medium_ft3": c.foot**3 / c.liter, "medium_uk_gal": c.gallon_imp / c.liter,
                 "medium_us_gal": c.gallon_US / c.liter},
    "price_per_m": {"price_per_ft": 1 / c.foot},
    "price_per_m2": {"price_per_ft2": 1 / c.foot**2},
    "price_per_l": {"price_per_m3": c.liter, "price_per_ft3": c.liter / c.foot**3, "price_per_uk_gal": c.liter / c.gallon_imp,
                    "price_per_us_gal": c.liter / c.gallon_US},
    "mass_kg_per_l": {"mass_kg_per_m3": c.liter},
    "specific_surface_m2_per_m3": {"specific_surface_ft2_per_ft3": 1 / c.foot},
    "power_w": {"power_kw": c.kilo},
    "max_water_temperature_c": {"max_water_temperature_f": float(c.convert_temperature(1, "F", "C"))},
}, sys.stdout)
