// Package outline turns what a tape can measure of a pond, its plan, its depth and its shelves, into area and litres.
//
// How deep a bay is can be told in three ways: by shelves and sides that go in all round, by level contours, or by soundings
// at places, between which the floor is taken to be plane. The first is what most of the package is about.
//
// The plan is seen from above. Going down, the water's edge moves inwards: by the batter of the sides, and by the width
// of each shelf. The section at a depth is therefore the plan inset by the distance gone inwards so far, and the volume
// is the sum of the sections. Both are found exactly but for rounding, except under a shelf so wide that an ellipse
// loses its shape; Measured.VolumeError says how far the volume can be wrong for numerical reasons.
//
// # How an outline is inset
//
// Each straight side moves inwards parallel to itself, as a string line does. Corners are mitred, also those that point
// into the water: the shelf keeps its width along each side and its inner edge keeps the corner, which is how a shelf is
// set out and cut, and two battered faces meet in a straight valley or ridge. Rounding such corners would leave up to 8 %
// more floor in a T-shaped pond. A spit that turns by more than 120° at its tip is cut by one more side across it, as a
// mitre there would run far ahead: the inner edge of a shelf is never further than two widths from the bank.
//
// On the way inwards a side can shrink to nothing and a neck can close, which leaves two or more separate floors. Between
// two such events area is a quadratic in the inset and perimeter is linear, so the outline is followed from event to
// event (a wavefront, whose trace is the straight skeleton of Aichholzer and Aurenhammer) and every integral is taken in
// closed form. That the area must not jump at an event measures the error of the whole.
//
// # Libraries considered
//
// github.com/peterstace/simplefeatures and github.com/twpayne/go-geos buffer polygons only through a C library, and calc
// takes no C. github.com/paulmach/orb and github.com/golang/geo have no offset in the plane. github.com/tdewolff/canvas
// offsets paths in pure Go but rounds to a fixed grid and brings some hundred packages for fonts and drawing. The Go
// ports of the Clipper library were not to be had from the module proxy. All of them return a polygon at one inset and
// none the insets between which the closed form holds, which is what makes the volume exact. Vectors are gonum's r2 and
// elliptic integrals gonum's mathext.
package outline
