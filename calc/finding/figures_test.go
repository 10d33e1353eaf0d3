package finding_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/finding"
)

func TestFiguresAreWrittenAsPeopleReadThem(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", 7e-302: "less than 0.001", 0.0009999: "less than 0.001", 0.01234: "0.0123", 4.5678: "4.57", 40.1157: "40.1", 999.4: "999",
		999.6: "1,000", 1300.4: "1,300", 48138.8: "48,100", 168000: "168,000", 2.8359e13: "28,400,000,000,000", -12345: "-12,300",
	} {
		assert.Equal(t, want, finding.Figures(x))
	}
}
