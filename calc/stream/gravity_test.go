package stream_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/stream"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// Reference: Colebrook's law solved by scipy's brentq with python3-fluids' friction factor and python3-iapws' viscosity; the
// viscosity here is within 2e-6 of it, which moves the flow by a tenth of that.
func TestFullPipeMeetsTheTable(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/gravity_return_full.csv") {
		run, err := pipe.NewRun(pipe.Spec{
			Length: unit.Metres(row.Float("L_m")), Bore: unit.Millimetres(row.Float("D_mm")), Wall: pipe.Smooth,
			Roughness: unit.Millimetres(row.Float("eps_mm")), OtherK: row.Float("sumK"),
		})
		require.NoError(t, err)
		w := water.At(nil, unit.Celsius(row.Float("T_C")))
		q := stream.FullFlow(run, unit.Metres(row.Float("dh_m")), w)
		assert.InEpsilon(t, row.Float("Q_m3_h"), q.CubicMetresPerHour(), 4e-7)
		assert.Zero(t, stream.FullFlow(run, 0, w))
	}
}

// Reference: the same section by Manning's law (python3-fluids) and by Colebrook–White's, ten digits printed; for the second
// the viscosity at 15 °C counts, to 2e-6.
func TestPartFullPipeMeetsTheTable(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	for _, row := range reftest.Table(t, "hydraulics/gravity_return_partfull.csv") {
		p := stream.GravityPipe{
			Bore: unit.Millimetres(row.Float("D_mm")), Slope: unit.Ratio(row.Float("slope")), Roughness: unit.Millimetres(0.06),
		}
		depth := p.Bore * unit.Length(row.Float("y_over_D"))
		s := stream.RoundSection.Eval(stream.RoundInput{Bore: p.Bore, Depth: depth})
		assert.InEpsilon(t, row.Float("A_m2"), s.Area.SquareMetres(), 1e-9)
		assert.InEpsilon(t, row.Float("R_m"), s.Radius.Metres(), 1e-9)
		v := stream.Manning.Eval(stream.ManningInput{Radius: s.Radius, Slope: p.Slope, Roughness: 0.011})
		assert.InEpsilon(t, row.Float("v_manning_m_s"), v.MetresPerSecond(), 1e-9)
		run, _, err := p.Run(nil, unit.CubicMetresPerHour(row.Float("Q_CW_m3_h")*(1-1e-6)), w)
		require.NoError(t, err)
		assert.InEpsilon(t, row.Float("y_over_D"), run.Filling.Float(), 5e-6)
		assert.InEpsilon(t, row.Float("v_CW_m_s"), run.Velocity.MetresPerSecond(), 2e-6)
		if row.Float("y_over_D") == 0.9 {
			assert.InEpsilon(t, row.Float("Q_CW_m3_h"), p.Most(w).CubicMetresPerHour(), 2e-6)
		}
	}
}

// Reference: the same two equations evaluated in Python, ten digits printed.
func TestStandpipeMeetsTheTable(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/gravity_standpipe_inlet.csv") {
		in := stream.StandpipeInput{Bore: unit.Millimetres(row.Float("D_mm")), Head: unit.Millimetres(row.Float("h_mm"))}
		assert.InEpsilon(t, row.Float("Q_min_m3_h"), stream.Standpipe.Eval(in).CubicMetresPerHour(), 1e-9)
		assert.Equal(t, row.Float("h_over_D") > 0.2+1e-9, stream.Standpipe.Outside(in) != "", "%+v", in)
	}
}

func TestPartFullPipeRemarks(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	p := stream.GravityPipe{Bore: unit.Millimetres(103.6), Slope: 0.01, Roughness: unit.Millimetres(0.06)}
	codes := func(q unit.Flow) []string {
		_, found, err := p.Run(nil, q, w)
		require.NoError(t, err)
		var codes []string
		for _, f := range found {
			codes = append(codes, f.Code)
			assert.NotEmpty(t, f.Sentence+f.Change)
		}
		return codes
	}
	assert.Equal(t, []string{"GRAVITY_PIPE_TOO_SMALL"}, codes(p.Most(w)*1.01))
	assert.Equal(t, []string{"GRAVITY_PIPE_NEARLY_FULL"}, codes(p.Most(w)*0.95))
	assert.Empty(t, codes(p.Most(w)/2))
	assert.Equal(t, []string{"SOLIDS_SETTLE_IN_PIPE"}, codes(unit.LitresPerHour(100)))

	_, _, err := stream.GravityPipe{}.Run(nil, 0, w)
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 4)
}

// Law: more flow never less depth, at any flow the pipe carries.
func TestMoreFlowFillsThePipeMore(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	rapid.Check(t, func(t *rapid.T) {
		p := stream.GravityPipe{
			Bore: unit.Millimetres(rapid.Float64Range(20, 300).Draw(t, "bore")), Slope: unit.Ratio(rapid.Float64Range(0.002, 0.5).Draw(t, "slope")),
			Roughness: unit.Millimetres(rapid.Float64Range(0.001, 0.6).Draw(t, "roughness")),
		}
		q := p.Most(w) * unit.Flow(rapid.Float64Range(1e-6, 0.99).Draw(t, "share"))
		run, _, err := p.Run(nil, q, w)
		require.NoError(t, err)
		more, _, err := p.Run(nil, q*1.01, w)
		require.NoError(t, err)
		assert.Greater(t, more.Depth, run.Depth)
		s := stream.RoundSection.Eval(stream.RoundInput{Bore: p.Bore, Depth: run.Depth})
		// The angle of a thin film is a small difference: the section keeps some ten digits of it.
		assert.InEpsilon(t, q.CubicMetresPerSecond(), s.Area.SquareMetres()*run.Velocity.MetresPerSecond(), 1e-9)
	})
}

func BenchmarkGravityPipe(b *testing.B) {
	w := water.At(nil, unit.Celsius(15))
	p := stream.GravityPipe{Bore: unit.Millimetres(103.6), Slope: 0.01, Roughness: unit.Millimetres(0.06)}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := p.Run(nil, unit.LitresPerHour(8000), w); err != nil {
			b.Fatal(err)
		}
	}
}
