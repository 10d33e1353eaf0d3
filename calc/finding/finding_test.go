package finding_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/finding"
)

func TestWholeSetsThousandsApart(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", 7.4: "7", 999.6: "1,000", 12345: "12,345", 1234567.2: "1,234,567", -1234: "-1,234", 100: "100",
	} {
		assert.Equal(t, want, finding.Whole(x))
	}
}
