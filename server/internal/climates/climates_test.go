package climates

import (
	"testing"
	"testing/fstest"

	"buf.build/go/protovalidate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every built-in climate passes the rules that a caller's has to pass, and says whether it is invented.
func TestBuiltInClimatesKeepTheRules(t *testing.T) {
	list, err := Read()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(list), 5)
	names, invented := map[string]bool{}, 0
	for _, c := range list {
		assert.False(t, names[c.Name], c.Name)
		names[c.Name] = true
		if c.Invented {
			invented++
			assert.Contains(t, c.About, "Invented")
		}
		for _, m := range c.Months {
			assert.NoError(t, protovalidate.Validate(m), c.Name)
		}
	}
	assert.Equal(t, len(list)-1, invented)
}

func TestReadRefusesWhatDoesNotFit(t *testing.T) {
	const site = "climate,about,standing,latitude_deg,altitude_m,wind_height_m,wind_at_pond_percent\nx,Invented,invented,50,0,2,100\n"
	const head = "climate,month,air_min_c,air_max_c,humidity_percent,wind_m_per_s,sunshine_h,rain_mm,rain_days\n"
	for _, months := range []string{head, head + "x,2,0,1,80,1,1,1,1\n", head + "y,1,0,1,80,1,1,1,1\n", head + "x,1,0,one,80,1,1,1,1\n", head + "x,1,0\n", ""} {
		_, err := read(fstest.MapFS{"climates/sites.csv": {Data: []byte(site)}, "climates/months.csv": {Data: []byte(months)}})
		assert.Error(t, err, months)
	}
	_, err := read(fstest.MapFS{})
	assert.Error(t, err)
}
