// Package paper lays sheets of cards out on pages of paper, as PDF.
//
// It is the only code that knows a millimetre. All is black on white: no word is
// grey, and nothing is told by a colour, so that a red lamp and any printer show
// all of it. No text is cut or made smaller to fit: what does not fit goes on on
// the next card or page. The same sheets give the same bytes.
package paper
