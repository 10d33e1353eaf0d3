package source

// Fish, feed, waste, media and water quality.
var (
	CarpLengthMass = Source{
		Key:      "froese-2014",
		Citation: "Froese, Thorson & Reyes 2014, A Bayesian approach for estimating length-weight relationships in fishes, J. Appl. Ichthyol. 30:78; parameters of the two species as FishBase gives them",
		Status:   FromMemory,
	}
	LengthMassMedian = Source{
		Key:      "froese-2006",
		Citation: "Froese 2006, Cube law, condition factor and weight-length relationships, J. Appl. Ichthyol. 22:241",
		Locator:  "summary: median exponent 3.03 across species",
		Status:   Published,
	}
	CarpFeeding = Source{
		Key:      "fao-carp-feeding",
		Citation: "FAO, Aquaculture Feed and Fertilizer Resources Information System: common carp",
		Locator:  "natural food and feeding habits; feeding methods",
		Status:   Published,
	}
	CarpProtein = Source{
		Key:      "fao-carp-protein",
		Citation: "FAO, Aquaculture Feed and Fertilizer Resources Information System: common carp",
		Locator:  "nutritional requirements: protein 30 to 38 % of feed",
		Status:   Published,
	}
	SmallScale = Source{
		Key:      "fao-589",
		Citation: "FAO Fisheries and Aquaculture Technical Paper 589, Small-scale aquaponic food production, 2014",
		Locator:  "chapter 7",
		Status:   SecondHand,
	}
	FeedRule = Source{
		Key:      "feed-rule",
		Citation: "ration of a maintained stock: nothing below 8 °C (FAO, common carp), above the maintenance of juveniles (Goolish & Adelman 1984) and within grow-out practice of 1 to 2 % a day (FAO 589) when warm; mass exponent 0.8 of metabolism (NRC 2011, from memory)",
		Status:   Derived,
	}
	FeedWaste = Source{
		Key:      "timmons-ebeling",
		Citation: "Timmons & Ebeling, Recirculating Aquaculture",
		Locator:  "waste from feed: ammonia 0.092 of protein fed, oxygen 0.25, solids 0.25 of feed, carbon dioxide 1.375 of oxygen",
		Status:   FromMemory,
	}
	MediaRates = Source{
		Key:      "media-rates",
		Citation: "Timmons & Ebeling, Recirculating Aquaculture, biofilter chapter; Malone & Beecher 2000, Aquac. Eng. 22:57; Rusten et al. 2006, Aquac. Eng. 34:322: design bands, not measurements",
		Status:   FromMemory,
	}
	FirstOrderAmmonia = Source{
		Key:      "malone-2006",
		Citation: "Malone & Pfeiffer 2006, Rating fixed film nitrifying biofilters used in recirculating aquaculture systems, Aquac. Eng. 34:389",
		Locator:  "abstract: linear in ammonia below 1 g/m³",
		Status:   Published,
	}
	NitrificationTemperature = Source{
		Key:      "zhu-chen-2002",
		Citation: "Zhu & Chen 2002, The impact of temperature on nitrification rate in fixed film biofilters, Aquac. Eng. 26:221",
		Locator:  "abstract: 4.275 % a degree about 20 °C where ammonia limits",
		Status:   Published,
	}
	ColdNitrification = Source{
		Key:      "hoang-2014",
		Citation: "Hoang et al. 2014, Water Res. 49:215, nitrification in a moving bed",
		Locator:  "abstract: 18 ± 5.1 % of the rate at 20 °C after long exposure to 1 °C",
		Status:   Published,
	}
	NitrifierGrowth = Source{
		Key:      "usepa-1975",
		Citation: "USEPA 1975, Process Design Manual for Nitrogen Control; rates of Knowles, Downing & Barrett 1965",
		Status:   FromMemory,
	}
	UnionisedAmmonia = Source{
		Key:      "emerson-1975",
		Citation: "Emerson, Russo, Lund & Thurston 1975, Aqueous ammonia equilibrium calculations, J. Fish. Res. Board Can. 32:2379",
		Locator:  "pKa, as reproduced in later works; constant checked against the table of IFAS FA-16",
		Status:   SecondHand,
	}
	AmmoniaLimit = Source{
		Key:      "eifac-ammonia",
		Citation: "Alabaster & Lloyd 1982, Water Quality Criteria for Freshwater Fish (EIFAC), and Directive 2006/44/EC, cyprinid waters: un-ionised ammonia 0.025 mg/L as NH3",
		Status:   FromMemory,
	}
	AmmoniaHarm = Source{
		Key:      "ifas-fa16",
		Citation: "Ammonia in Aquatic Systems, University of Florida IFAS FA-16",
		Locator:  "figure 2: harm above 0.05 mg/L un-ionised ammonia nitrogen",
		Status:   SecondHand,
	}
	CyprinidWater = Source{
		Key:      "eu-2006-44",
		Citation: "Directive 2006/44/EC on fresh waters needing protection to support fish life, annex I, cyprinid waters",
		Status:   FromMemory,
	}
)

// Oxygen.
var (
	OxygenSolubility = Source{
		Key:      "benson-krause",
		Citation: "Benson & Krause 1980, 1984, Limnol. Oceanogr. 25:662, 29:620, as the USGS and Standard Methods 4500-O use them",
		Locator:  "polynomial as reproduced in the SWAT+ documentation, first coefficient from memory; pressure and salt from memory",
		Status:   SecondHand,
	}
	StandardAtmosphere = Source{
		Key:      "iso-2533",
		Citation: "ISO 2533, Standard Atmosphere (ICAO)",
		Status:   FromMemory,
	}
	WeirGameson = Source{
		Key:      "wrl-1973",
		Citation: "Water Research Laboratory 1973, Notes on Water Pollution 61; coefficients as in Butts & Evans 1983 (Illinois State Water Survey) and the QUAL2K manual",
		Status:   FromMemory,
	}
	WeirNakasone = Source{
		Key:      "nakasone-1987",
		Citation: "Nakasone 1987, Study of aeration at weirs and cascades, J. Environ. Eng. 113(1):64",
		Status:   FromMemory,
	}
	CalmSurface = Source{
		Key:      "crusius-2003",
		Citation: "Crusius & Wanninkhof 2003, gas transfer at low wind over a lake, Limnol. Oceanogr. 48:1010",
		Locator:  "power law, as reproduced in an open lake-metabolism library",
		Status:   SecondHand,
	}
	WindySurface = Source{
		Key:      "cole-caraco-1998",
		Citation: "Cole & Caraco 1998, Atmospheric exchange of carbon dioxide in a low-wind oligotrophic lake, Limnol. Oceanogr. 43:647",
		Status:   FromMemory,
	}
	SchmidtNumber = Source{
		Key:      "wanninkhof-1992",
		Citation: "Wanninkhof 1992, Relationship between wind speed and gas exchange over the ocean, J. Geophys. Res. 97:7373",
		Status:   FromMemory,
	}
	DiffusedAir = Source{
		Key:      "diffused-air",
		Citation: "form and temperature factor of ASCE Standard 2, Measurement of Oxygen Transfer in Clean Water, as reproduced; uptake of 4 to 7 % a metre of fine and 2 to 3 % of coarse bubbles, alpha 0.6 to 0.9, as USEPA 1989, Fine Pore Aeration Systems, EPA/625/1-89/023 has them, from memory",
		Status:   FromMemory,
	}
	FishRespiration = Source{
		Key:      "yamanaka-2013",
		Citation: "Yamanaka et al. 2013, J. Appl. Ichthyol. 29:891, round crucian carp, larvae and juveniles",
		Locator:  "abstract",
		Status:   Published,
	}
)

// Ripening.
var (
	MonodNitrification = Source{
		Key:      "monod-two-step",
		Citation: "two-step Monod model of nitrification, as textbooks of wastewater treatment give it",
		Status:   FromMemory,
	}
	RipeningWeeks = Source{
		Key:      "mnyoro-2022",
		Citation: "Mnyoro et al. 2022, J. Cleaner Prod. 366:132929: pilot biofilters took 6 to 7 weeks",
		Locator:  "abstract",
		Status:   Published,
	}
	FirstBacteria = Source{
		Key:      "first-bacteria",
		Citation: "nitrifiers a new or a seeded filter starts with: unknown on site, chosen so that a new filter ripens in the weeks that are observed",
		Status:   Assumed,
	}
)

// Water at rest and solids.
var (
	Nitrification = Source{
		Key:      "nitrification-stoichiometry",
		Citation: "stoichiometry of nitrification: two moles of oxygen and two equivalents of alkalinity a mole of nitrogen; 4.57 as Zhu & Chen 2002 quote USEPA 1975",
		Status:   Derived,
	}
	NitrateCeiling = Source{
		Key:      "nitrate-ceiling",
		Citation: "50 mg/L of nitrate nitrogen for fish kept long; FAO Technical Paper 589 allows 150",
		Status:   FromMemory,
	}
	AlkalinityBand = Source{
		Key:      "alkalinity-band",
		Citation: "Timmons & Ebeling, Recirculating Aquaculture, and Boyd: alkalinity 80 to 200, at least 50 mg/L as CaCO₃",
		Status:   FromMemory,
	}
	KozenyCarman = Source{
		Key:      "kozeny-carman",
		Citation: "Kozeny–Carman equation, uniform deposit",
		Status:   Derived,
	}
	SludgeDensity = Source{
		Key:      "sludge-density",
		Citation: "wet fish sludge of 1,020 kg/m³ with 2 to 4 % dry matter; foam catches 30 to 60 % of solids a pass",
		Status:   FromMemory,
	}
	GardenGrowth = Source{
		Key:      "garden-growth",
		Citation: "von Bertalanffy growth with 0.2 a year, inside the range given for carp in temperate waters: illustrative, not measured in garden ponds",
		Status:   Assumed,
	}
)

// Winter.
var (
	StefanIce = Source{
		Key:      "stefan-ice",
		Citation: "Stefan's law of ice growth, 2.22 W/(m K), 917 kg/m³, 334 kJ/kg; reductions for shelter and snow as USACE practice (CRREL) has them, from memory",
		Status:   Derived,
	}
	WaterHeat = Source{
		Key:      "water-heat",
		Citation: "heat balance with 4.205 MJ/(m³ K), water near 2 °C",
		Status:   Derived,
	}
)
