package source

// Weather, radiation and evaporation.
var (
	FAO56 = Source{
		Key:      "fao-56",
		Citation: "Allen, Pereira, Raes & Smith 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56",
		Locator:  "as open test suites quote its equations and worked examples",
		Status:   SecondHand,
	}
	ShallowWater = Source{
		Key:      "fao-56-table-12",
		Citation: "Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56",
		Locator:  "table 12, open water shallower than 2 m: 1.05",
		Status:   FromMemory,
	}
	OpenWater = Source{
		Key:      "shuttleworth-1993",
		Citation: "Penman 1948, Proc. R. Soc. A 193:120, in the form of Shuttleworth 1993, Evaporation, in Maidment (ed.), Handbook of Hydrology",
		Locator:  "as reproduced in an open reference page and in open source code",
		Status:   SecondHand,
	}
	OpenWater1956 = Source{
		Key:      "mcmahon-2013",
		Citation: "Penman 1956 as in McMahon, Peel, Lowe, Srikanthan & McVicar 2013, Hydrol. Earth Syst. Sci. 17:1331",
		Locator:  "supplement S4 and S19, as an open test suite quotes them",
		Status:   SecondHand,
	}
	LatentHeat = Source{
		Key:      "shuttleworth-1993-latent-heat",
		Citation: "Shuttleworth 1993, Evaporation, in Maidment (ed.), Handbook of Hydrology",
		Locator:  "2.501 − 0.002361 T",
		Status:   FromMemory,
	}
	WaterAlbedo = Source{
		Key:      "mcmahon-2013-albedo",
		Citation: "McMahon et al. 2013, Hydrol. Earth Syst. Sci. 17:1331: albedo of open water 0.08",
		Locator:  "supplement, as an open test suite quotes it",
		Status:   SecondHand,
	}
	Histospline = Source{
		Key:      "histospline",
		Citation: "spline through the sums from month to month, whose rise over each month is the month's sum (area-matching histospline, Boneva, Kendall & Stefanov 1971)",
		Status:   FromMemory,
	}
	WaterEmissivity = Source{
		Key:      "stefan-boltzmann-water",
		Citation: "Stefan–Boltzmann law, emissivity of water 0.97",
		Status:   FromMemory,
	}
	IceSheet = Source{
		Key:      "ashton-1989",
		Citation: "Ashton 1989, Thin ice growth, Water Resour. Res. 25:564: conduction through the ice in series with the loss to the air",
		Status:   FromMemory,
	}
	ClimateAtlas = Source{
		Key:      "climate-atlas",
		Citation: "monthly means of a grid point from an atlas of the world's climate",
		Locator:  "as the tests of an open library of FAO-56 functions reproduce them",
		Status:   SecondHand,
	}
	HeatBalance = Source{Key: "heat-balance", Citation: "balance of heat: what goes in comes out or stays", Status: Derived}
)

// The year of a pond.
var (
	PondHeat = Source{
		Key:      "pond-heat",
		Citation: "balance of heat of a stirred pond: sunlight kept, warmth lost to the sky as FAO-56 has it for a surface as warm as the air and by Stefan–Boltzmann for the rest, vapour and warmth to the air by Penman's wind function",
		Status:   Derived,
	}
	DayShape = Source{
		Key:      "day-shape",
		Citation: "sunlight as half a sine wave from sunrise to sunset, air warmest at three in the afternoon, wind and damp the same all day",
		Status:   Assumed,
	}
	EvenRain = Source{
		Key:      "even-rain",
		Citation: "the rain of a month in equal parts on days at even distances",
		Status:   Assumed,
	}
)
