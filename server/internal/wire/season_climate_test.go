package wire

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A year has 365 days here whatever the calendar says: 29 February is left out, and the days before and after it keep their
// numbers.
func TestDatesLeaveLeapDaysOut(t *testing.T) {
	on := func(text string) time.Time {
		date, err := Date("day", text)
		require.NoError(t, err)
		return date
	}
	for text, want := range map[string]int{"2026-01-01": 1, "2028-02-28": 59, "2028-02-29": 59, "2028-03-01": 60, "2028-12-31": 365, "2027-12-31": 365} {
		assert.Equal(t, want, DayOfYear(on(text)), text)
	}
	assert.Equal(t, "2028-02-28", DateAfter(on("2028-01-01"), 58))
	assert.Equal(t, "2028-03-01", DateAfter(on("2028-01-01"), 59))
	assert.Equal(t, "2029-01-01", DateAfter(on("2028-12-31"), 1))
	assert.Equal(t, "2028-09-30", DateAfter(on("2027-10-01"), 364))
	for _, text := range []string{"2026-02-29", "2026-13-01", "2026-00-10"} {
		_, err := Date("day", text)
		assert.ErrorContains(t, err, "day")
	}
}
