// Package circulation follows the water from where a pump's return enters a pond to where the intake takes it: how far that is
// against the pond's length, what of the pond it passes by, and whether deep water lies still in winter.
//
// Ways are the shortest through the water, round every spit and corner. Real water spreads and eddies around them; what is said
// here is where it cannot help going short and where it has no cause to go.
package circulation
