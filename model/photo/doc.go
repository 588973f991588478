// Package photo is the card with windows that is laid over dry cloth, and reads a photograph of it.
//
// The card (card.go, code.go) is data: places of marks, windows and code in millimetres, which model/sheet prints and the
// reader looks for. It is first a mask for the eye and serves without a photograph.
//
// Reading: marks.go finds the four corner marks, at whatever size, turn and tilt; straight.go makes a plane mapping of them
// (a homography) and tells by the code which way up the card is, mirrored too, so that the turn that a camera notes in the
// file (EXIF) changes nothing; light.go takes the unprinted paper around each window for the light that fell there;
// read.go puts it together; rung.go places a window between the dyer's own rungs on the same photograph.
//
// What it claims: between rungs of the same photograph camera, light and paper fall out, as far as they are the same for
// both. A colour by itself rests on the paper being white and the camera true: see alone. All limits without a source were
// set by testdata/bench/photo.
package photo
