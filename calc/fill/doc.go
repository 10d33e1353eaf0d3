// Package fill finds how much water a pond holds without drawing it: from a water meter, from the time a known flow takes
// to fill it, or from salt added and the change measured; and holds that against the drawn volume.
package fill
