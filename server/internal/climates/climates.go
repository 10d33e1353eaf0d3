// Package climates reads the built-in climates.
package climates

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/testdata"
)

// A Climate is one place and its months.
type Climate struct {
	Name, About string
	Invented    bool
	Latitude    float64 // degrees, north positive
	Altitude    float64 // m
	WindHeight  float64 // m
	WindAtPond  float64 // percent
	Months      []*pb.WeatherMonth
}

// Read reads the climates that are built in, in the order of their table.
func Read() ([]Climate, error) { return read(testdata.Climates) }

// read reads climates/sites.csv and climates/months.csv.
func read(files fs.FS) ([]Climate, error) {
	sites, err := table(files, "climates/sites.csv", 7)
	if err != nil {
		return nil, err
	}
	months, err := table(files, "climates/months.csv", 9)
	if err != nil {
		return nil, err
	}
	var errs []error
	made := make([]Climate, len(sites))
	for i, row := range sites {
		c := Climate{Name: row[0], About: row[1], Invented: row[2] == "invented"}
		errs = append(errs, numbers(row[3:], &c.Latitude, &c.Altitude, &c.WindHeight, &c.WindAtPond))
		made[i] = c
	}
	for _, row := range months {
		i := slices.IndexFunc(made, func(c Climate) bool { return c.Name == row[0] })
		if i < 0 || row[1] != strconv.Itoa(len(made[i].Months)+1) {
			return nil, fmt.Errorf("climates/months.csv: month %s of %q is out of place", row[1], row[0])
		}
		m, damp, wet := &pb.WeatherMonth{}, 0.0, 0.0
		errs = append(errs, numbers(row[2:], &m.AirMinC, &m.AirMaxC, &damp, &m.WindMPerS, &m.SunshineH, &m.RainMm, &wet))
		m.Damp, m.RainDays = &pb.WeatherMonth_HumidityPercent{HumidityPercent: damp}, new(int32(wet))
		made[i].Months = append(made[i].Months, m)
	}
	for _, c := range made {
		if len(c.Months) != 12 {
			errs = append(errs, fmt.Errorf("climates/months.csv: %q has %d months", c.Name, len(c.Months)))
		}
	}
	return made, errors.Join(errs...)
}

// table reads a file without its header.
func table(files fs.FS, name string, columns int) (rows [][]string, err error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, fmt.Errorf("read climates: %w", err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	r := csv.NewReader(f)
	r.FieldsPerRecord = columns
	rows, err = r.ReadAll()
	if err != nil || len(rows) == 0 {
		return nil, fmt.Errorf("read %s: no rows or a bad one: %w", name, err)
	}
	return rows[1:], nil
}

func numbers(texts []string, to ...*float64) error {
	for i, x := range to {
		v, err := strconv.ParseFloat(texts[i], 64)
		if err != nil {
			return fmt.Errorf("read climates: %w", err)
		}
		*x = v
	}
	return nil
}
