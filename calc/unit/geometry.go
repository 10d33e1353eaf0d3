package unit

import "math"

// Length is a distance, depth or bore in metres.
type Length float64

// Metres makes a Length.
func Metres(m float64) Length { return Length(m) }

// Millimetres makes a Length.
func Millimetres(mm float64) Length { return Length(mm / 1000) }

// Centimetres makes a Length.
func Centimetres(cm float64) Length { return Length(cm / 100) }

// Feet makes a Length from international feet.
func Feet(ft float64) Length { return Length(ft * foot) }

// Inches makes a Length.
func Inches(in float64) Length { return Length(in * inch) }

// Metres reads the length in metres.
func (l Length) Metres() float64 { return float64(l) }

// Millimetres reads the length in millimetres.
func (l Length) Millimetres() float64 { return float64(l) * 1000 }

// Centimetres reads the length in centimetres.
func (l Length) Centimetres() float64 { return float64(l) * 100 }

// Feet reads the length in international feet.
func (l Length) Feet() float64 { return float64(l) / foot }

// Inches reads the length in inches.
func (l Length) Inches() float64 { return float64(l) / inch }

// Unit is m.
func (Length) Unit() string { return "m" }

// Area is a surface in square metres.
type Area float64

// SquareMetres makes an Area.
func SquareMetres(m2 float64) Area { return Area(m2) }

// SquareMetres reads the area in square metres.
func (a Area) SquareMetres() float64 { return float64(a) }

// Unit is m².
func (Area) Unit() string { return "m²" }

// Volume is a content in cubic metres.
type Volume float64

// CubicMetres makes a Volume.
func CubicMetres(m3 float64) Volume { return Volume(m3) }

// Litres makes a Volume.
func Litres(l float64) Volume { return Volume(l * litre) }

// UKGallons makes a Volume from imperial gallons of 4.54609 L.
func UKGallons(g float64) Volume { return Volume(g * ukGal) }

// USGallons makes a Volume from US liquid gallons of 3.785411784 L.
func USGallons(g float64) Volume { return Volume(g * usGal) }

// CubicMetres reads the volume in cubic metres.
func (v Volume) CubicMetres() float64 { return float64(v) }

// Litres reads the volume in litres.
func (v Volume) Litres() float64 { return float64(v) / litre }

// UKGallons reads the volume in imperial gallons.
func (v Volume) UKGallons() float64 { return float64(v) / ukGal }

// USGallons reads the volume in US liquid gallons.
func (v Volume) USGallons() float64 { return float64(v) / usGal }

// Unit is m³.
func (Volume) Unit() string { return "m³" }

// SpecificSurface is the surface of filter media in their own volume, in square metres a cubic metre.
type SpecificSurface float64

// SquareMetresPerCubicMetre makes a SpecificSurface.
func SquareMetresPerCubicMetre(s float64) SpecificSurface { return SpecificSurface(s) }

// SquareMetresPerCubicMetre reads the specific surface in square metres a cubic metre.
func (s SpecificSurface) SquareMetresPerCubicMetre() float64 { return float64(s) }

// Unit is m²/m³.
func (SpecificSurface) Unit() string { return "m²/m³" }

// Angle is a plane angle in radians.
type Angle float64

// Degrees makes an Angle.
func Degrees(a float64) Angle { return Angle(a * math.Pi / 180) }

// Degrees reads the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }

// Radians reads the angle in radians.
func (a Angle) Radians() float64 { return float64(a) }

// Unit is rad.
func (Angle) Unit() string { return "rad" }
