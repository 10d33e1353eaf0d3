package source

// Sources of cautions.
var (
	WiringRules = Source{
		Key:      "iec-60364",
		Citation: "IEC 60364-4-41 clause 415.1 and IEC 60364-7-702; local codes come first",
		Status:   FromMemory,
	}
)
