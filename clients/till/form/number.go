package form

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"
)

var (
	plainNumber = regexp.MustCompile(`^[0-9]*\.?[0-9]+$|^[0-9]+\.$`)
	thousands   = regexp.MustCompile(`^[0-9]{1,3}(,[0-9]{3})+(\.[0-9]+)?$`)
	feetInches  = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?)\s*(?:ft|'|′)\s*(?:([0-9]+(?:\.[0-9]+)?)\s*(?:in|"|″)?)?$`)
)

var (
	errComma    = errors.New("write the fraction with a point: 1.5, not 1,5")
	errNegative = errors.New("give a number that is not below 0")
)

// number reads what was typed: digits with a point, commas between thousands, and feet with inches where the unit is the foot.
func number(text string, unit Unit) (float64, error) {
	text = strings.ToLower(strings.TrimSpace(text))
	text = strings.TrimSpace(strings.TrimSuffix(text, strings.ToLower(unit.Symbol)))
	switch {
	case thousands.MatchString(text):
		text = strings.ReplaceAll(text, ",", "")
	case plainNumber.MatchString(text):
	case unit.Symbol == "ft" && feetInches.MatchString(text+"ft"):
		return strconv.ParseFloat(text, 64)
	case unit.Symbol == "ft" && feetInches.MatchString(text):
		parts := feetInches.FindStringSubmatch(text)
		whole, err := strconv.ParseFloat(parts[1], 64)
		if err != nil || parts[2] == "" {
			return whole, err
		}
		inches, err := strconv.ParseFloat(parts[2], 64)
		return whole + inches/12, err
	case strings.Count(text, ",") == 1 && !strings.Contains(text, "."):
		return 0, errComma
	case strings.HasPrefix(text, "-"):
		return 0, errNegative
	default:
		return 0, needs(unit)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) {
		return 0, needs(unit)
	}
	return x, nil
}

func needs(unit Unit) error {
	if unit.Words == "" {
		return errors.New("write digits only, such as 12")
	}
	return errors.New("write digits only: " + unit.Words + " are meant")
}

// typed writes a number as somebody would type it, to so many significant digits.
func typed(x float64, digits int) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
