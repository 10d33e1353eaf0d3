package csvcatalogue

// note is what the column guide says of a column beyond its rules, and a cell to copy. The examples of a table make one row
// that can be used, which a test holds them to.
type note struct {
	what    string
	example string
}

// notes are by table and column, or by column alone where it means the same in every table. A test wants one for each column.
func notes() map[string]note {
	return map[string]note{
		"catalogue/title":    {"What people call the catalogue.", "Example range"},
		"catalogue/currency": {"The currency of every price, by its three letters (ISO 4217).", "GBP"},
		"catalogue/notice":   {"Shown with every answer that uses the catalogue.", "Prices include VAT"},

		"item_number":      {"Your own number, used once in the whole catalogue.", ""},
		"description":      {"Plain words for the person who reads the offer.", ""},
		"in_stock":         {"How many were on hand when the file was saved: pieces, fish, whole metres, square metres or litres. 0 is none; empty is not known.", "4"},
		"cable_length_m":   {"Length of the cable that it comes with.", "10"},
		"price":            {"Selling price. An item without one is listed, and never suggested.", "89.00"},
		"flow_l_per_h":     {"Flow at this point of the curve.", "3000"},
		"max_flow_l_per_h": {"Greatest flow it is made for.", "8000"},

		"pumps/item_number":        {"Your own number, used once in the whole catalogue. The curve in pump_curves.csv goes by it.", "PU-60"},
		"pumps/description":        {"Plain words for the person who reads the offer.", "submersible pump, foam cage, 10 m cable"},
		"pumps/power_w":            {"Electrical power taken, where it is not given for every point of the curve. One of the two is needed.", "70"},
		"pumps/solids_mm":          {"Largest piece of dirt that passes through.", "6"},
		"pumps/outlet_bore_mm":     {"Bore of the outlet.", "25"},
		"pumps/label_flow_l_per_h": {"Flow printed on the box: compared with the curve, never calculated with.", "6000"},
		"pumps/label_head_m":       {"Head printed on the box: compared with the curve, never calculated with.", "3.2"},

		"pump_curves/item_number": {"Number of the pump in pumps.csv. Each pump has two rows or more, from the least flow to the greatest.", "PU-60"},
		"pump_curves/head_m":      {"Head at this flow. It falls from row to row of a pump, but for a small rise near no flow.", "2.2"},
		"pump_curves/power_w":     {"Electrical power taken at this flow: at every point of a pump, or at none.", ""},

		"filters/item_number":                {"Your own number, used once in the whole catalogue.", "FI-12"},
		"filters/description":                {"Plain words for the person who reads the offer.", "pressure filter, foam rings, cleaning lever"},
		"filters/price":                      {"Selling price. An item without one is listed, and never suggested.", "165.00"},
		"filters/body":                       {"pressure: closed, the pump pushes through it. open: a box that the pump lifts to, and water runs on by its own weight.", "pressure"},
		"filters/medium":                     {"What the bacteria live on.", "foam"},
		"filters/medium_l":                   {"Volume the medium fills.", "12"},
		"filters/specific_surface_m2_per_m3": {"Surface of the medium that bacteria can use, for each cubic metre of it.", "400"},
		"filters/clean_loss_flow_l_per_h":    {"Flow at which the head lost with clean medium was measured. A pressure filter needs it.", "4000"},
		"filters/clean_loss_head_m":          {"Head lost at that flow with clean medium.", "0.6"},
		"filters/due_loss_flow_l_per_h":      {"Flow at which the head lost was measured when the filter is due for cleaning. A pressure filter needs it.", "4000"},
		"filters/due_loss_head_m":            {"Head lost at that flow when the filter is due for cleaning.", "1.4"},
		"filters/inlet_above_outlet_m":       {"How far the inlet lies above the outlet. An open filter needs it.", ""},
		"filters/flush_l":                    {"Water lost in one flush or rinse.", "20"},
		"filters/label_pond_l":               {"\"For ponds up to\", as printed on the box: never calculated with.", "10000"},

		"lamp_units/item_number":         {"Your own number, used once in the whole catalogue.", "UV-18"},
		"lamp_units/description":         {"Plain words for the person who reads the offer.", "UV lamp unit 18 W, plastic housing"},
		"lamp_units/price":               {"Selling price. An item without one is listed, and never suggested.", "139.00"},
		"lamp_units/lamp":                {"low_pressure: low-pressure mercury. amalgam: low-pressure, high-output amalgam.", "low_pressure"},
		"lamp_units/lamp_count":          {"How many lamps are in the unit.", "1"},
		"lamp_units/power_w":             {"Electrical power of the whole unit, ballast and all lamps.", "22"},
		"lamp_units/output_254_nm_w":     {"Output of one new lamp at 254 nm, in air. Without it a usual share of the power is taken, and said to be.", "5.5"},
		"lamp_units/arc_length_mm":       {"Length of the lit arc, which is shorter than the lamp.", "210"},
		"lamp_units/sleeve_diameter_mm":  {"Outside diameter of the sleeve round the lamp.", "28"},
		"lamp_units/chamber_diameter_mm": {"Inside diameter of the chamber.", "76"},
		"lamp_units/chamber_length_mm":   {"Inside length of the chamber.", "330"},
		"lamp_units/life_h":              {"Hours a lamp is sold to last.", "9000"},
		"lamp_units/loss_flow_l_per_h":   {"Flow at which the head lost in the unit was measured.", "5000"},
		"lamp_units/loss_head_m":         {"Head lost at that flow.", "0.15"},
		"lamp_units/lamp_price":          {"Price of one new lamp.", "24.50"},

		"hoses/item_number":  {"Your own number, used once in the whole catalogue.", "HO-25"},
		"hoses/description":  {"Plain words for the person who reads the offer.", "pond hose, ribbed outside, smooth inside"},
		"hoses/bore_mm":      {"True inside diameter, not the nominal size.", "25.4"},
		"hoses/wall":         {"What the inside is like. corrugated: ribbed on the inside.", "smooth"},
		"hoses/tail_bore_mm": {"Narrowest way through the hose tails that fit it. Empty where the hose joins without tails.", "22"},
		"hoses/price_per_m":  {"Selling price of a metre.", "2.90"},

		"liners/item_number":    {"Your own number, used once in the whole catalogue.", "LI-10"},
		"liners/description":    {"Plain words for the person who reads the offer.", "EPDM lining 1.0 mm"},
		"liners/material":       {"What it is made of. underlay: protective fleece under a lining.", "epdm"},
		"liners/thickness_mm":   {"Thickness.", "1.0"},
		"liners/mass_kg_per_m2": {"Mass of a square metre.", "1.25"},
		"liners/roll_width_m":   {"Widest sheet without a seam.", "12.2"},
		"liners/price_per_m2":   {"Selling price of a square metre.", "8.40"},

		"fittings/item_number":             {"Your own number, used once in the whole catalogue.", "FT-25"},
		"fittings/description":             {"Plain words for the person who reads the offer.", "hose tail 25 mm on 1 inch thread"},
		"fittings/price":                   {"Selling price of one piece.", "1.80"},
		"fittings/kind":                    {"What it is called in the trade.", "hose_tail"},
		"fittings/bore_mm":                 {"True inside diameter; of a reducer the narrower end, of a hose tail the narrowest way through.", "20.5"},
		"fittings/loss_coefficient":        {"K of the head lost, K v²/2g, by the velocity v in bore_mm; straight through a tee. Empty where you do not know it.", ""},
		"fittings/branch_loss_coefficient": {"Tees: the same round the corner.", ""},
		"fittings/wide_bore_mm":            {"Reducers: bore of the wider end. Hose tails: bore of the hose. Both need it, and no other fitting has it.", "25"},

		"media/item_number":                {"Your own number, used once in the whole catalogue.", "ME-50"},
		"media/description":                {"Plain words for the person who reads the offer.", "plastic carriers 12 mm, loose"},
		"media/medium":                     {"What the bacteria live on.", "moving_carriers"},
		"media/specific_surface_m2_per_m3": {"Surface that bacteria can use, for each cubic metre that it fills.", "500"},
		"media/price_per_l":                {"Selling price of a litre.", "1.60"},
		"media/pack_l":                     {"Litres in the smallest pack. Empty where any amount is sold.", "25"},
		"media/mass_kg_per_l":              {"Mass of a litre as it lies, dry.", "0.15"},

		"fish_species/item_number":             {"Your own number, used once in the whole catalogue.", "FS-10"},
		"fish_species/description":             {"Plain words for the person who reads the offer.", "goldfish, mixed, 8 to 12 cm"},
		"fish_species/price":                   {"Selling price of one fish.", "4.50"},
		"fish_species/common_name":             {"What people call it.", "goldfish"},
		"fish_species/sold_length_cm":          {"Length when sold, tail included.", "10"},
		"fish_species/grown_length_cm":         {"The same when grown, in a garden pond.", "25"},
		"fish_species/length_mass_coefficient": {"a of W = a L^b, W in g and L in cm. Published for most species; give a and b, or neither.", "0.01479"},
		"fish_species/length_mass_exponent":    {"b of the same.", "3.03"},
		"fish_species/growth_rate_per_year":    {"K of von Bertalanffy's curve of growth: how fast it nears its grown length.", "0.2"},
		"fish_species/min_water_temperature_c": {"Coldest water it may be kept in all year.", "4"},
		"fish_species/max_water_temperature_c": {"Warmest water it may be kept in all year.", "28"},
	}
}

// noteOf is the note of one column.
func noteOf(all map[string]note, table, column string) (note, bool) {
	if n, ok := all[table+"/"+column]; ok {
		return n, true
	}
	n, ok := all[column]
	return n, ok
}
