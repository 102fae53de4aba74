// Package photo takes pictures in: it looks at what a file really is before
// anything of it is decoded, decodes it upright under limits, makes small
// pictures, keeps originals bit for bit, and works out what marks on a picture
// measure.
//
// Contract:
//
//   - A file is judged by its content, never by its name: Inspect tells format,
//     size, orientation, time and place from the header. What is larger than
//     Limits allow is refused before a pixel is decoded.
//   - A Decoder decodes in a goroutine of its own that cannot bring the program
//     down, ends with the deadline, and takes its pixels from one budget shared
//     by all pictures under way.
//   - Originals keeps files by their SHA-256. A file is durable when Put
//     returns; the caller writes its row after that, so that a crash leaves a
//     file without a row at most, which Sweep removes when it is old enough.
//   - An original is never written to. Marks, turns and the white patch stand
//     beside it.
//   - WithoutPlace gives a copy without the place it was taken at.
//   - What cannot be taken is told by *Problem with a message key.
//
// Nouns: upright is the picture as its camera meant it to be seen; turned is
// upright with the person's own quarter turns, clockwise, on top. A Point is in
// thousandths of the sides, from the upper left. A civil time is that of the
// camera's clock; its zone is empty where the camera did not tell it, and a
// picture without a time has none. No function reads a clock.
package photo
