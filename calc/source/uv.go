package source

// Light in the water.
var (
	BeerLambert  = Source{Key: "beer-lambert", Citation: "Beer–Lambert law", Status: Derived}
	RadialModel  = Source{Key: "radial-model", Citation: "radial model of the IOA/IUVA World Congress 2007, Los Angeles, proceedings, p. 1396; averages derived", Status: Derived}
	LineSource   = Source{Key: "line-source", Citation: "Jacob & Dranoff 1970, AIChE Journal 16:359; Blatchley 1997, Water Research 31:2205; re-derived", Status: FromMemory}
	RadLSI       = Source{Key: "liu-2004", Citation: "Liu et al. 2004, J. Water Supply: Research and Technology AQUA 53:391", Status: FromMemory}
	PointSources = Source{Key: "qualls-johnson-1983", Citation: "Qualls & Johnson 1983, Applied and Environmental Microbiology 45:872, abstract", Status: Published}
	Bolton2000   = Source{Key: "bolton-2000", Citation: "Bolton 2000, Water Research 34:3315, abstract", Status: Published}
)

// Lamps.
var (
	LampEfficiency = Source{Key: "lamp-efficiency", Citation: "EPA 815-R-06-007 (2006), UV Disinfection Guidance Manual, table 2.1, from memory, less 10 % ballast loss; small lamps assumed", Status: Assumed}
	UVDGMLamps     = Source{Key: "uvdgm-2006-lamps", Citation: "EPA 815-R-06-007 (2006), UV Disinfection Guidance Manual", Locator: "table 2.1", Status: FromMemory}
	ColdLamp       = Source{Key: "cold-lamp", Citation: "low-pressure mercury lamps peak near 40 °C of the wall", Status: FromMemory}
	HendricksLamp  = Source{Key: "hendricks", Citation: "Hendricks, Fundamentals of Water Treatment Unit Processes", Locator: "eq. 19.39, p. 628", Status: Published}
	UFGS11376      = Source{Key: "ufgs-11376", Citation: "Unified Facilities Guide Specification 11376, note to the designer", Status: Published}
	QuartzSleeve   = Source{Key: "quartz-sleeve", Citation: "usual transmittance of a clean quartz sleeve at 254 nm", Status: FromMemory}
	NWRI2012       = Source{Key: "nwri-2012", Citation: "NWRI 2012, Ultraviolet Disinfection Guidelines for Drinking Water and Water Reuse", Status: FromMemory}
)

// Flow through the chamber.
var (
	BirdAnnulus   = Source{Key: "bird-annulus", Citation: "Bird, Stewart & Lightfoot, Transport Phenomena, flow through an annulus", Status: FromMemory}
	TanksInSeries = Source{Key: "tanks-in-series", Citation: "Levenspiel 1999, Chemical Reaction Engineering, 3rd ed., tanks in series", Status: FromMemory}
	Artichowicz   = Source{Key: "artichowicz-2020", Citation: "Artichowicz et al. 2020, Water 12:231, abstract", Status: Published}
)

// Kill.
var Chick = Source{Key: "chick", Citation: "Chick's law: kill in proportion to those alive and to the dose", Status: Derived}

// Doses: algae.
var (
	Tao2010     = Source{Key: "tao-2010", Citation: "Tao et al. 2010, Chemosphere 78, doi 10.1016/j.chemosphere.2009.11.016, abstract", Status: Published}
	Li2020      = Source{Key: "li-2020", Citation: "Li et al. 2020, Science of the Total Environment, doi 10.1016/j.scitotenv.2019.136374, abstract", Status: Published}
	BinAlam2001 = Source{Key: "bin-alam-2001", Citation: "Bin Alam et al. 2001, Water Research 35, doi 10.1016/S0043-1354(00)00357-2, abstract", Status: Published}
	Sakai2007   = Source{Key: "sakai-2007", Citation: "Sakai et al. 2007, Water Research 41(1):11-18, abstract", Status: Published}
	Desalin2015 = Source{Key: "desalin-2015", Citation: "Desalination and Water Treatment 2015, doi 10.1080/19443994.2015.1041058, abstract", Status: Published}
	Olsen2016   = Source{Key: "olsen-2016", Citation: "Olsen et al. 2016, Marine Pollution Bulletin 103:270-275, abstract", Status: Published}
)

// Doses: germs and parasites.
var (
	Bullock1977   = Source{Key: "bullock-stuckey-1977", Citation: "Bullock & Stuckey 1977, J. Fish. Res. Board Can. 34(8):1244-1249, abstract", Status: SecondHand}
	Yoshimizu1990 = Source{Key: "yoshimizu-1990", Citation: "Yoshimizu et al. 1990, 2nd Asian Fisheries Forum, abstract", Status: Published}
	Tcsae2011     = Source{Key: "tcsae-2011", Citation: "Transactions of the Chinese Society of Agricultural Engineering 2011, article 20111149, abstract", Status: Published}
	Sharrer2005   = Source{Key: "sharrer-2005", Citation: "Sharrer et al. 2005, Aquacultural Engineering 33:135-149", Status: FromMemory}
	Chang1985     = Source{Key: "chang-1985", Citation: "Chang et al. 1985, Applied and Environmental Microbiology 49:1361-1365", Status: FromMemory}
	Lu2022        = Source{Key: "lu-2022", Citation: "Lu et al. 2022, Aquaculture 548:737598, abstract", Status: Published}
	Kudoa         = Source{Key: "kudoa-2016", Citation: "Fish Pathology 51(3):128, abstract", Status: Published}
	Gratzek1983   = Source{Key: "gratzek-1983", Citation: "Gratzek et al. 1983, Journal of Fish Diseases 6:145-153", Status: FromMemory}
	Hoffman1974   = Source{Key: "hoffman-1974", Citation: "Hoffman 1974, Transactions of the American Fisheries Society 103:541-550", Status: FromMemory}
	Hedrick2000   = Source{Key: "hedrick-2000", Citation: "Hedrick et al. 2000, Diseases of Aquatic Organisms 42:53-59", Status: FromMemory}
	Wedemeyer1996 = Source{Key: "wedemeyer-1996", Citation: "Wedemeyer 1996, tables of lethal doses", Status: FromMemory}
	Vlasenko1969  = Source{Key: "vlasenko-1969", Citation: "Vlasenko 1969 in Hoffman 1974", Status: FromMemory}
)

// Rules of drinking water.
var (
	UVDGM2006  = Source{Key: "uvdgm-2006", Citation: "EPA 815-R-06-007 (2006), UV Disinfection Guidance Manual, table 1.4 = 40 CFR 141.720(d)(1)", Status: FromMemory}
	OENORM5873 = Source{Key: "oenorm-m-5873-1", Citation: "OENORM M 5873-1, as required by the Austrian Food Code, chapter B1, sec. 4.15", Status: Published}
)

// Clarity of water.
var (
	UVDGMWaters = Source{Key: "uvdgm-2006-waters", Citation: "EPA 815-R-06-007 (2006), UV Disinfection Guidance Manual, usual transmittances", Status: FromMemory}
	PondWaters  = Source{Key: "pond-waters", Citation: "engineering estimate from dissolved carbon and algae; no measurement found", Status: Assumed}
	SUVA        = Source{Key: "suva", Citation: "US EPA method 415.3, definition of SUVA", Status: FromMemory}
	Hodoki1998  = Source{Key: "hodoki-watanabe-1998", Citation: "Hodoki & Watanabe 1998, Japanese Journal of Limnology 59:27, abstract", Status: Published}
)

// Safety.
var (
	Keitz      = Source{Key: "keitz", Citation: "Keitz formula, IOA/IUVA World Congress 2007, Los Angeles, proceedings", Locator: "p. 1396", Status: Published}
	CIE187     = Source{Key: "cie-187", Citation: "CIE 187:2010, abstract", Status: Published}
	IEC6033555 = Source{Key: "iec-60335-2-55", Citation: "IEC 60335-2-55:2021, scope; local wiring rules", Status: Published}
	Minamata   = Source{Key: "minamata", Citation: "Minamata Convention on Mercury; EU Directive 2012/19/EU", Status: FromMemory}
)

// Growth of algae.
var (
	Eppley1972    = Source{Key: "eppley-1972", Citation: "Eppley 1972, as quoted in Kremer & Nixon 1978, Ecological Studies 24, doi 10.1007/978-3-642-66717-6_4, abstract", Status: SecondHand}
	Bissinger2008 = Source{Key: "bissinger-2008", Citation: "Bissinger et al. 2008, Limnology and Oceanography 53:487, abstract", Status: Published}
	AlgaeBalance  = Source{Key: "algae-balance", Citation: "mass balance of a well-mixed pond", Status: Derived}
	PondGrowth    = Source{Key: "pond-growth", Citation: "10 to 30 % of the envelope for a pond short of light; natural loss 0.05 to 0.2 a day", Status: Assumed}
)
