package session_test

import (
	"io/fs"
	"log/slog"
	"os"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/clients/internal/brief"
	"example.com/pondwright/plugins/builtin"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/embedded"
	"example.com/pondwright/testdata"
)

// The embedded engine starts this test binary again as its catalogue plugin.
func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	os.Exit(m.Run())
}

// What a person in the trade expects of each demo job. The jobs are invented, so these are habits of the trade and plain geometry.
var demoJobs = map[string]func(t *testing.T, p *pondwrightv1.PlanJobResponse){
	// Nothing is turfed on paving; twelve goldfish and a lamp draw well under 100 W, for which the thinnest fixed cable will do over 12 m.
	"patio": func(t *testing.T, p *pondwrightv1.PlanJobResponse) {
		assert.NotContains(t, tasks(p), "turf")
		assert.InDelta(t, 1.5, p.GetElectrics().GetConductorMm2(), 0)
		assert.Equal(t, pondwrightv1.Severity_SEVERITY_STOP, caution(p, "WATER_DROWNS").GetSeverity(), "children live here")
		assert.InDelta(t, 2.5, p.GetFill().GetFillH(), 0.3, "1.8 m³ at 12 L/min")
	},
	// Rain needs no dechlorinator and fish that are not there need no filter. Seven millimetres come and go with the stream and its pools.
	"wildlife": func(t *testing.T, p *pondwrightv1.PlanJobResponse) {
		assert.Zero(t, p.GetFill().GetChlorineG())
		assert.NotContains(t, tasks(p), "treat")
		assert.NotContains(t, tasks(p), "stock_1")
		assert.Nil(t, p.GetFiltration().GetFish())
		assert.InDelta(t, 7, p.GetStates().GetStartDropMm(), 4)
		assert.Greater(t, p.GetQuantities().GetDig().GetSubsoil().GetLooseM3(), 1.4*p.GetQuantities().GetDig().GetSubsoil().GetBankM3(), "clay swells")
	},
	// Nearly 29 m³ take a day and a half from a tap, and four weeks of curing come first. The catalogue's kit with air and lights is some
	// hundreds of watts: 2.5 mm² is enough over 35 m.
	"koi": func(t *testing.T, p *pondwrightv1.PlanJobResponse) {
		assert.InDelta(t, 34, p.GetFill().GetFillH(), 2)
		assert.InDelta(t, 28, task(p, "cure").GetWaitDays(), 0)
		assert.True(t, p.GetElectrics().GetCables()[0].GetWithinLimit())
		assert.Greater(t, p.GetFill().GetTanLeftMgPerL(), 0.05, "chloramine")
		assert.Greater(t, p.GetFiltration().GetFish().GetGrown().GetMassKg(), 50.0)
		assert.Len(t, p.GetFiltration().GetStocking(), 3)
	},
	// Some 200 L are on their way down the cascade, one centimetre of the lower bay. With the pump on the shelf, without fall, filter and
	// lamp unit, more flows than in summer.
	"cascade": func(t *testing.T, p *pondwrightv1.PlanJobResponse) {
		assert.InDelta(t, 210, p.GetStates().GetTransitL(), 50)
		assert.InDelta(t, 10, p.GetStates().GetStartDropMm(), 3)
		assert.Greater(t, p.GetStates().GetStates().GetWinter().GetSolution().GetFlowLPerH(), p.GetStates().GetStates().GetClean().GetSolution().GetFlowLPerH())
		assert.Contains(t, tasks(p), "fall")
		assert.Greater(t, p.GetQuantities().GetStone().GetTotalMassT(), 1.0)
		assert.NotEmpty(t, p.GetLight().GetSeason().GetDueDay())
	},
	// No fish, children always: the fence stands before the hole is filled, for so the brief has it.
	"school": func(t *testing.T, p *pondwrightv1.PlanJobResponse) {
		assert.Equal(t, pondwrightv1.Severity_SEVERITY_STOP, caution(p, "WATER_DROWNS").GetSeverity())
		assert.InDelta(t, 4.5, p.GetFill().GetFillH(), 0.7, "3.2 m³ at 12 L/min")
		assert.Equal(t, []string{"lining"}, task(p, "extra_1").GetAfter())
		assert.InDelta(t, 0, p.GetQuantities().GetDig().GetCartedMassKg(), 1e-9, "the mound takes it all")
	},
	// More than a thousand cubic metres: weeks from the bore-hole, thousands of tonnes of clay, and a cable that loses voltage.
	"estate": func(t *testing.T, p *pondwrightv1.PlanJobResponse) {
		assert.Greater(t, p.GetFill().GetFillH(), 24*20.0)
		assert.Greater(t, p.GetQuantities().GetDig().GetTotalM3(), 1000.0)
		assert.NotNil(t, caution(p, "RAISED_WATER"))
		assert.Greater(t, p.GetStates().GetTransitL(), 3000.0)
		assert.GreaterOrEqual(t, p.GetElectrics().GetConductorMm2(), 2.5)
	},
}

func tasks(p *pondwrightv1.PlanJobResponse) (ids []string) {
	for _, t := range p.GetWork().GetTasks() {
		ids = append(ids, t.GetTask())
	}
	return ids
}

func task(p *pondwrightv1.PlanJobResponse, id string) *pondwrightv1.WorkTask {
	for _, t := range p.GetWork().GetTasks() {
		if t.GetTask() == id {
			return t
		}
	}
	return nil
}

func caution(p *pondwrightv1.PlanJobResponse, code string) *pondwrightv1.Finding {
	for _, f := range p.GetCautions() {
		if f.GetCode() == code {
			return f
		}
	}
	return nil
}

// The six demo jobs are planned whole over real gRPC, and say what a person in the trade expects.
func TestDemoJobsArePlanned(t *testing.T) {
	conn, closing, err := embedded.Open(t.Context(), slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, closing()) })
	client := pondwrightv1.NewJobServiceClient(conn)
	files, err := fs.Glob(testdata.Briefs, "briefs/*.yaml")
	require.NoError(t, err)
	require.Len(t, files, len(demoJobs))
	for _, file := range files {
		name := strings.TrimSuffix(path.Base(file), ".yaml")
		t.Run(name, func(t *testing.T) {
			text, err := fs.ReadFile(testdata.Briefs, file)
			require.NoError(t, err)
			job, _, err := brief.ReadJob(file, text)
			require.NoError(t, err)
			planned, err := client.PlanJob(t.Context(), &pondwrightv1.PlanJobRequest{Job: job})
			require.NoError(t, err)
			require.NotNil(t, planned.GetKit().GetKit())
			require.NotNil(t, planned.GetStates().GetStates().GetClean().GetSolution())
			assert.Empty(t, planned.GetCosts().GetCurrency()[3:])
			assert.Positive(t, planned.GetCosts().GetBuildTotal())
			assert.True(t, planned.GetCalendar().GetDated())
			for i, d := range planned.GetWater().GetDrawings() {
				assert.GreaterOrEqual(t, len(d.GetOutline()), 3)
				bank := d.GetBank()
				assert.InDelta(t, job.GetBrief().GetPond().GetBays()[i].GetDepthM(), bank[len(bank)-1].GetDepthM(), 1e-9)
				assert.Zero(t, d.GetLines()[0].GetDepthM())
			}
			seen := map[string]bool{}
			for _, f := range planned.GetFigures() {
				assert.False(t, seen[f.GetFigure()], f.GetFigure())
				seen[f.GetFigure()] = true
				assert.NotEmpty(t, f.GetWhy(), f.GetFigure())
			}
			demoJobs[name](t, planned)
		})
	}
}
