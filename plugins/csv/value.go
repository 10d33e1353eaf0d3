package csvcatalogue

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// value reads one cell for one field. The error says what is wrong and what to write.
func value(field protoreflect.FieldDescriptor, text string, decimalComma bool) (protoreflect.Value, error) {
	switch field.Kind() {
	case protoreflect.StringKind:
		return protoreflect.ValueOfString(text), nil
	case protoreflect.DoubleKind:
		f, err := number(text, decimalComma)
		return protoreflect.ValueOfFloat64(f), err
	case protoreflect.Int32Kind:
		n, err := strconv.ParseInt(text, 10, 32)
		if err != nil {
			return protoreflect.Value{}, fmt.Errorf("%q is not a whole number", text)
		}
		return protoreflect.ValueOfInt32(int32(n)), nil
	case protoreflect.BoolKind:
		if text != "yes" && text != "no" {
			return protoreflect.Value{}, fmt.Errorf("%q is neither yes nor no", text)
		}
		return protoreflect.ValueOfBool(text == "yes"), nil
	case protoreflect.EnumKind:
		return enumValue(field.Enum(), text)
	}
	return protoreflect.Value{}, fmt.Errorf("cannot be given in a CSV file (%s)", field.Kind())
}

var (
	plainNumber = regexp.MustCompile(`^[+-]?[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]+)?$`)
	thousands   = regexp.MustCompile(`^[+-]?[0-9]{1,3}(,[0-9]{3})+$`)
)

// number reads a number and leaves no room for two readings of it. Neither "1,500" nor, where the decimal mark is a comma,
// "1.500" says whether it is one and a half or fifteen hundred.
func number(text string, decimalComma bool) (float64, error) {
	plain := text
	if decimalComma {
		switch {
		case thousands.MatchString(text):
			return 0, fmt.Errorf("%q can be read two ways: write %s, or %s if the comma is the decimal mark",
				text, strings.ReplaceAll(text, ",", ""), strings.TrimRight(strings.TrimRight(text, "0"), ","))
		case strings.Contains(text, "."):
			return 0, fmt.Errorf("%q has a dot, and in a file with semicolons the decimal mark is a comma: write %s", text, strings.Replace(text, ".", ",", 1))
		}
		plain = strings.Replace(text, ",", ".", 1)
	} else if strings.Contains(text, ",") {
		return 0, fmt.Errorf("%q has a comma: the decimal mark is a dot, and thousands are not parted", text)
	}
	if !plainNumber.MatchString(plain) {
		return 0, fmt.Errorf("%q is not a number: write the number alone, without unit or currency", text)
	}
	f, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return 0, fmt.Errorf("%q is too large a number", text)
	}
	return f, nil
}

// enumValue reads the short form of an enum's name.
func enumValue(enum protoreflect.EnumDescriptor, text string) (protoreflect.Value, error) {
	words := enumWords(enum)
	for i := range enum.Values().Len() {
		if v := enum.Values().Get(i); v.Number() != 0 && words[i] == text {
			return protoreflect.ValueOfEnum(v.Number()), nil
		}
	}
	return protoreflect.Value{}, fmt.Errorf("%q is not one of %s", text, strings.Join(words[1:], ", "))
}

// enumWords are the short forms of an enum's names, in the order of the enum: FILTER_MEDIUM_FOAM is "foam".
func enumWords(enum protoreflect.EnumDescriptor) []string {
	values := enum.Values()
	prefix := strings.TrimSuffix(string(values.Get(0).Name()), "UNSPECIFIED")
	words := make([]string, values.Len())
	for i := range words {
		words[i] = strings.ToLower(strings.TrimPrefix(string(values.Get(i).Name()), prefix))
	}
	return words
}
