package brief

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/testdata"
)

const jobBlock = `job:
  site:
    ground: clay
    turf_m: 0.05
  work:
    start_day: "2027-04-12"
    dig_method: by_hand
  electrics:
    cable_m: 40
`

func TestAJobIsReadBesideItsBrief(t *testing.T) {
	j, at, err := ReadJob("pond.yaml", []byte(good+jobBlock))
	require.NoError(t, err)
	assert.Equal(t, pondwrightv1.GroundKind_GROUND_KIND_CLAY, j.GetSite().GetGround())
	assert.Equal(t, pondwrightv1.DigMethod_DIG_METHOD_BY_HAND, j.GetWork().GetDigMethod())
	assert.InDelta(t, 40, j.GetElectrics().GetCableM(), 0)
	line := 1 + strings.Count(good, "\n")
	place, written := at.Find("job.site.turf_m")
	require.True(t, written)
	assert.Equal(t, line+3, place.Line)

	alone, _, err := Read("pond.yaml", []byte(good))
	require.NoError(t, err)
	assert.Equal(t, alone.String(), j.GetBrief().String())
	with, _, err := Read("pond.yaml", []byte(good+jobBlock))
	require.NoError(t, err)
	assert.Equal(t, alone.String(), with.String())
	without, _, err := ReadJob("pond.yaml", []byte(good))
	require.NoError(t, err)
	assert.Nil(t, without.GetSite())
}

// Every mistake in the job is named where it stands, with those of the brief.
func TestMistakesInAJobAreAllNamed(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"unknown":          {"turf_m", "turf_cm", "job.site.turf_cm: turf_cm is not a field here; use turf_m"},
		"no such word":     {"by_hand", "by_spoon", "job.work.dig_method"},
		"out of range":     {"cable_m: 40", "cable_m: 40000", "job.electrics.cable_m"},
		"no day":           {"2027-04-12", "next spring", "job.work.start_day"},
		"part of brief":    {"  site:", "  stock: {groups: []}\n  site:", "job.stock: stock is not a field here; it belongs in the top of the file"},
		"deeper in brief":  {"  site:", "  species: koi\n  site:", "it belongs in stock.groups"},
		"brief within":     {"  site:", "  brief: {title: x}\n  site:", "job.brief: the brief stands at the top of the file"},
		"empty":            {jobBlock, "job:\n", "job: nothing is given for it"},
		"twice":            {jobBlock, jobBlock + jobBlock, "job: job is given twice"},
		"job's in brief":   {jobBlock, "site: {ground: clay}\n", "site: site is not a field here; it belongs in job"},
		"months too few":   {"  site:", "  climate: {water_temperatures_c: [4, 5]}\n  site:", "give the water temperature of all twelve months, or of none"},
		"mortar too green": {"  work:", "  work:\n    mortar_cure_days: 2", "job.work.mortar_cure_days"},
	} {
		_, _, err := ReadJob("pond.yaml", []byte(good+strings.Replace(jobBlock, c.old, c.new, 1)))
		require.Error(t, err, name)
		assert.Contains(t, err.Error(), c.want, name)
	}
	_, _, err := ReadJob("pond.yaml", []byte(strings.Replace(good, "pond:", "pound:", 1)+strings.Replace(jobBlock, "turf_m", "turf_cm", 1)))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "pound")
	assert.Contains(t, err.Error(), "turf_cm")
}

// What the engine refuses of a job is shown at its line.
func TestWhatIsRefusedOfAJobIsShownAtItsLine(t *testing.T) {
	_, at, err := ReadJob("pond.yaml", []byte(good+jobBlock))
	require.NoError(t, err)
	text := at.Explain([]*errdetails.BadRequest_FieldViolation{
		{Field: "job.electrics.cable_m", Description: "too long"}, {Field: "job.brief.pond.bays[0].depth_m", Description: "too deep"},
	}).Error()
	assert.Contains(t, text, ": job.electrics.cable_m: too long")
	assert.Contains(t, text, ": pond.bays[0].depth_m: too deep")
	assert.NotContains(t, text, ":1:1:")
}

func TestDemoJobsAreRead(t *testing.T) {
	files, err := fs.Glob(testdata.Briefs, "briefs/*.yaml")
	require.NoError(t, err)
	require.Len(t, files, 6)
	for _, file := range files {
		text, err := fs.ReadFile(testdata.Briefs, file)
		require.NoError(t, err)
		j, _, err := ReadJob(file, text)
		require.NoError(t, err, file)
		assert.NotNil(t, j.GetSite(), file)
		assert.True(t, len(j.GetClimate().GetWaterTemperaturesC()) == 12 || j.GetClimate().GetSite() != nil, file)
	}
}
