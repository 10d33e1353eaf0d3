// Package dig measures what comes out of the ground for a pond and where it goes: volume in the bank, turf, topsoil and
// subsoil apart, the loose volume that is carted, loads, and the mound the spoil makes.
//
// Volumes say which state the soil is in. Bank is as it lies, loose is as it is heaped and carted, compacted is as it is
// rolled in layers.
package dig
