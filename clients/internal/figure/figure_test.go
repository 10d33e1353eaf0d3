package figure

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestDigits(t *testing.T) {
	for _, c := range []struct {
		x    float64
		n    int
		want string
	}{
		{0, 3, "0"}, {math.Copysign(0, -1), 3, "0"},
		{1.23456, 3, "1.23"}, {-1.23456, 3, "-1.23"}, {11, 4, "11"}, {0.0213, 5, "0.0213"}, {0.1 + 0.2, 5, "0.3"},
		{18_937.4, 4, "18,940"}, {999.96, 4, "1,000"}, {-1_234_567, 9, "-1,234,567"}, {1_109_000, 4, "1,109,000"}, {123, 3, "123"},
		{1.307e-6, 3, "1.31×10⁻⁶"}, {1e-5, 4, "1×10⁻⁵"}, {-2.5e13, 3, "-2.5×10¹³"}, {9e-5, 1, "9×10⁻⁵"},
		{math.NaN(), 3, "not a number"}, {math.Inf(-1), 3, "not a number"},
	} {
		assert.Equal(t, c.want, Digits(c.x, c.n), "%v to %d", c.x, c.n)
	}
}

func TestPlain(t *testing.T) {
	assert.Equal(t, "38.52", Plain(38.519999999999996, 6))
	assert.Equal(t, "1109000", Plain(1_109_000.4, 6))
	assert.Equal(t, "0.00001", Plain(1e-5, 6))
}

func TestUnitsAndMoneyStayWithTheirNumber(t *testing.T) {
	assert.Equal(t, "7,830\u00a0L/h", With(7830.2, "L/h"))
	assert.Equal(t, "92.4\u00a0W", With(92.41, "W"))
	assert.Equal(t, "5\u00a0g\u00a0a\u00a0day", With(5, "g a day"))
	assert.Equal(t, "GBP\u00a01,200.50", Money("GBP", 1200.5))
	assert.Equal(t, "1,200.50", Money("", 1200.5))
	assert.Equal(t, "17,280", Count(int64(17280)))
	assert.Equal(t, "-1,000", Count(-1000))
}

// One UK gallon is 4.546 09 L and one US gallon 3.785 411 784 L exactly (NIST Handbook 44, appendix C, from memory), so a
// thousand litres are 219.969 and 264.172 of them.
func TestVolumeShowsBothGallons(t *testing.T) {
	assert.Equal(t, "1,000 L, which is 220 UK gal or 264 US gal", strings.ReplaceAll(Volume(1000), "\u00a0", " "))
	assert.Equal(t, "100,000 L, which is 22,000 UK gal or 26,420 US gal", strings.ReplaceAll(Volume(100_000), "\u00a0", " "))
}

// What is written is the number, to half a unit of its last digit.
func TestDigitsAreTrue(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		x := rapid.Float64Range(-1e11, 1e11).Filter(func(x float64) bool { return math.Abs(x) > 1e-3 }).Draw(rt, "x")
		n := rapid.IntRange(1, 9).Draw(rt, "n")
		got, err := strconv.ParseFloat(strings.ReplaceAll(Digits(x, n), ",", ""), 64)
		// Half a unit of the nth digit is at most 5·10⁻ⁿ of the number; the last bits of the comparison come on top.
		if err != nil || math.Abs(got-x) > 5*math.Pow10(-n)*math.Abs(x)*(1+1e-12) {
			rt.Fatalf("%v to %d digits is written %s", x, n, Digits(x, n))
		}
	})
}
