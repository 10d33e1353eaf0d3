package source

// Sources of plan, volume and survey.
var (
	Shoelace = Source{
		Key: "shoelace", Status: Derived,
		Citation: "area by coordinates (shoelace formula), from Green's theorem",
	}
	Prismoidal = Source{
		Key: "prismoidal", Status: Derived,
		Citation: "prismoidal rule, exact where the section is a cubic or less in depth (Simpson's rule)",
	}
	Steiner = Source{
		Key: "steiner", Status: Derived,
		Citation: "area of an inner parallel outline, after J. Steiner's formula for parallel bodies",
	}
	StraightSkeleton = Source{
		Key: "aichholzer-1995", Status: FromMemory,
		Citation: "O. Aichholzer, F. Aurenhammer, D. Alberts, B. Gärtner, A novel type of skeleton for polygons, " +
			"Journal of Universal Computer Science 1 (1995)",
	}
	EllipticIntegral = Source{
		Key: "dlmf-19", Status: FromMemory,
		Citation: "NIST Digital Library of Mathematical Functions, chapter 19, Elliptic Integrals", Locator: "§19.30(i)",
	}
	LawOfCosines = Source{
		Key: "law-of-cosines", Status: Derived,
		Citation: "law of cosines in the triangle of two tapes and their base",
	}
	OffsetRules = Source{
		Key: "offset-rules", Status: FromMemory,
		Citation: "trapezoidal rule and Simpson's rule for offsets, as in any textbook of surveying",
	}
	CentripetalSpline = Source{
		Key: "yuksel-2011", Status: FromMemory,
		Citation: "C. Yuksel, S. Schaefer, J. Keyser, Parameterization and applications of Catmull-Rom curves, " +
			"Computer-Aided Design 43 (2011), on the curve of E. Catmull and R. Rom (1974)",
	}
	LiningDensities = Source{
		Key: "lining-densities", Status: FromMemory,
		Citation: "usual densities of sheet materials: filled rubber 1.15 to 1.25, soft PVC 1.25 to 1.35, polyethylene 0.92 to 0.96 t/m³",
	}
	Earthmoving = Source{
		Key: "fm-5-434", Status: FromMemory,
		Citation: "US Army Field Manual 5-434, Earthmoving Operations", Locator: "table 1-1, soil volume conversion factors",
	}
	SoilDensities = Source{
		Key: "soil-densities", Status: FromMemory,
		Citation: "usual densities of damp ground as it lies, from handbooks of foundation engineering: sand and loam 1.5 to 1.8, clay 1.7 to 2.1, " +
			"topsoil 1.2 to 1.6, chalk 1.7 to 2.1, solid rock 2.4 to 2.7 t/m³",
	}
	TrenchRule = Source{
		Key: "osha-1926-652", Status: FromMemory,
		Citation: "29 CFR 1926.652, Requirements for protective systems", Locator: "(a)(1)",
	}
	SaltBalance = Source{
		Key: "salt-balance", Status: Derived,
		Citation: "conservation of mass of the salt dissolved",
	}
	UncertaintyGuide = Source{
		Key: "gum-2008", Status: FromMemory,
		Citation: "JCGM 100:2008, Guide to the expression of uncertainty in measurement", Locator: "5.1.2",
	}
)
