package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/site"
	"example.com/pondwright/calc/unit"
)

func severities(found []finding.Finding) map[string]finding.Severity {
	made := map[string]finding.Severity{}
	for _, f := range found {
		made[f.Code] = f.Severity
	}
	return made
}

// Whatever the job, children and buried services are spoken of, and no depth is called safe.
func TestTheNoteAboutChildrenIsNeverLeftOut(t *testing.T) {
	yes, no := true, false
	for _, children := range []*bool{nil, &yes, &no} {
		found := severities(site.Cautions(site.Job{Children: children}))
		want := finding.Caution
		if children == &yes {
			want = finding.Stop
		}
		assert.Equal(t, want, found["WATER_DROWNS"])
		assert.Contains(t, found, "BURIED_SERVICES")
		assert.Contains(t, found, "MEASURE_BEFORE_DIGGING")
	}
	for _, f := range site.Cautions(site.Job{Depth: unit.Metres(0.1)}) {
		assert.NotContains(t, f.Sentence, "safe depth of")
	}
}

func TestCautionsGoByWhatThereIs(t *testing.T) {
	bare := severities(site.Cautions(site.Job{}))
	full := severities(site.Cautions(site.Job{
		Raised: unit.Metres(0.5), Mortar: true, Flush: true, Chlorine: true, Carted: true, Fish: true, GateWidth: unit.Metres(0.7), Machine: unit.Metres(0.75),
		Volume: unit.CubicMetres(10000),
	}))
	for code, severity := range map[string]finding.Severity{
		"RAISED_WATER": finding.Caution, "FRESH_MORTAR": finding.Caution, "FLUSH_WATER": finding.Caution, "BACKFLOW": finding.Caution, "SPOIL_IS_WASTE": finding.Note,
		"NEVER_RELEASE": finding.Caution, "GATE_TOO_NARROW": finding.Stop, "RESERVOIR_LAW": finding.Caution,
	} {
		assert.NotContains(t, bare, code)
		assert.Equal(t, severity, full[code], code)
	}
	assert.Equal(t, finding.Stop, severities(site.Cautions(site.Job{Raised: unit.Metres(1)}))["RETAINED_WATER"])
}
