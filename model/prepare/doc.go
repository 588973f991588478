// Package prepare lays out what comes before a day, backwards from when the vat is to be ready: the goods read as a dyer says
// them, scoured and wetted out; the water heated, the vat built, or warmed and looked at. It asks model/day for the steps
// of the build and how long they take; the day knows nothing of it.
package prepare
