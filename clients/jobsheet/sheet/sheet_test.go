package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

func TestAnAnswerWithHolesIsPrintedAllTheSame(t *testing.T) {
	for name, answer := range map[string]*pondwrightv1.SuggestKitsResponse{
		"nil":        nil,
		"empty":      {},
		"empty kit":  {Kits: []*pondwrightv1.Kit{{}, {}, {States: []*pondwrightv1.StateDuty{{}}}}},
		"empty miss": {NearestMiss: &pondwrightv1.Kit{FilterVerdict: &pondwrightv1.FilterVerdict{}, LampDose: &pondwrightv1.LampDose{}}},
		"empty parts": {
			Pond: &pondwrightv1.PondMeasures{Bays: []*pondwrightv1.BayMeasures{{}}}, FishNow: &pondwrightv1.FishLoad{},
			Wanted:   &pondwrightv1.WantedFlow{Needs: []*pondwrightv1.FlowNeed{{}}},
			Searched: &pondwrightv1.SearchCount{RuledOut: []*pondwrightv1.RuledOut{{}}}, Findings: []*pondwrightv1.Finding{{}},
			Workings: []*pondwrightv1.WorkingStep{{Inputs: []*pondwrightv1.WorkingValue{{}}}}, Provenance: &pondwrightv1.Provenance{},
		},
	} {
		for _, width := range []int{0, 60, 120} {
			assert.NotPanics(t, func() { Render(nil, answer, Options{Width: width, Workings: true}) }, name)
		}
	}
}

func TestAPondThatMustNotBeIsSaidFirst(t *testing.T) {
	text := Render(&pondwrightv1.Brief{Title: "Pond"}, &pondwrightv1.SuggestKitsResponse{
		Kits: []*pondwrightv1.Kit{{}},
		Findings: []*pondwrightv1.Finding{
			{Severity: pondwrightv1.Severity_SEVERITY_NOTE, Sentence: "a note"},
			{Severity: pondwrightv1.Severity_SEVERITY_STOP, Subject: "bank", Sentence: "it will slide", Change: "ask an engineer"},
		}}, Options{Width: 80})
	assert.Contains(t, text, "Stop: the kit would work, but the pond would not.")
	assert.Contains(t, text, "BEFORE YOU BUY OR DIG\n")
	assert.Contains(t, text, "  STOP     Bank: It will slide.\n           → Ask an engineer.\n")
	assert.NotContains(t, text, "It can be done")
}

func TestStandingOfASourceIsSaidInWords(t *testing.T) {
	for want, src := range map[string]*pondwrightv1.Source{
		"":                           nil,
		"common practice, no source": {Status: pondwrightv1.SourceStatus_SOURCE_STATUS_COMMON_PRACTICE},
		"A 1939, eq. 2 (published)":  {Citation: "A 1939", Locator: "eq. 2", Status: pondwrightv1.SourceStatus_SOURCE_STATUS_PUBLISHED},
		"A 1939 (from memory, check before quoting)": {Citation: "A 1939", Status: pondwrightv1.SourceStatus_SOURCE_STATUS_FROM_MEMORY},
		"A 1939": {Citation: "A 1939"},
	} {
		assert.Equal(t, want, sourceText(src))
	}
	for status := range pondwrightv1.SourceStatus_name {
		if status != 0 {
			assert.NotEmpty(t, standings[pondwrightv1.SourceStatus(status)], "%d has words", status)
		}
	}
}

func TestSIUnitsAreShownBesideEverydayOnes(t *testing.T) {
	for want, v := range map[string]*pondwrightv1.WorkingValue{
		"Q = 0.0022222 m³/s (8,000 L/h)": {Symbol: "Q", Value: 8.0 / 3600, Unit: "m³/s"},
		"D = 0.05 m (50 mm)":             {Symbol: "D", Value: 0.05, Unit: "m"},
		"L = 11 m":                       {Symbol: "L", Value: 11, Unit: "m"},
		"Re = 52,166":                    {Symbol: "Re", Value: 52166, Unit: "1"},
		"H = 400 J/m² (40 mJ/cm²)":       {Symbol: "H", Value: 400, Unit: "J/m²"},
		"E = 3,600,000 J (1 kWh)":        {Symbol: "E", Value: 3.6e6, Unit: "J"},
		"r = 5.787×10⁻⁹ kg/(m² s) (0.5 g/(m² day))": {Symbol: "r", Value: 5.787e-9, Unit: "kg/(m² s)"},
		"c = 0.001 kg/m³ (1 mg/L)":                  {Symbol: "c", Value: 0.001, Unit: "kg/m³"},
		"x = 0 m³":                                  {Symbol: "x", Value: 0, Unit: "m³"},
	} {
		got := value(v)
		assert.NotContains(t, got, " ", "it is not broken between lines")
		assert.Equal(t, want, spaced(got))
	}
}

func spaced(text string) string {
	out := []rune(text)
	for i, c := range out {
		if c == '\u00a0' {
			out[i] = ' '
		}
	}
	return string(out)
}

func TestWhatOfACatalogueWasNotReadIsSaid(t *testing.T) {
	c := &pondwrightv1.CatalogueRevision{Catalogue: "shop", Revision: "1"}
	render := func() string {
		answer := &pondwrightv1.SuggestKitsResponse{Provenance: &pondwrightv1.Provenance{Catalogues: []*pondwrightv1.CatalogueRevision{c}}}
		return Render(nil, answer, Options{Width: 120})
	}
	assert.NotContains(t, render(), "Caution")
	c.Fault, c.QuarantinedCount = "the folder is gone.", 7
	assert.Contains(t, render(), "  Caution: the last reading failed: the folder is gone; what was read before is used.\n")
	assert.Contains(t, render(), "  Caution: 7 items left out.\n")
	c.QuarantinedCount = 1
	assert.Contains(t, render(), "  Caution: 1 item left out.\n")
}

func TestFishAreWeighedByTheWaterLeftForThem(t *testing.T) {
	answer := &pondwrightv1.SuggestKitsResponse{
		Pond: &pondwrightv1.PondMeasures{VolumeL: 10_000}, FishNow: &pondwrightv1.FishLoad{MassKg: 4}, FishGrown: &pondwrightv1.FishLoad{MassKg: 12},
	}
	assert.Regexp(t, `Per.1,000.L +0.4 kg +1.2 kg\n`, Render(nil, answer, Options{Width: 80}))
	answer.Pond.NetVolumeL = 8000
	assert.Regexp(t, `Per.1,000.L +0.5 kg +1.5 kg\n`, Render(nil, answer, Options{Width: 80}))
	answer.Pond = nil
	assert.NotContains(t, Render(nil, answer, Options{Width: 80}), "1,000 L")
}
