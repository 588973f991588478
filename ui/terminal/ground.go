package terminal

// Ground is the terminal's answer to the question what colour its own background has: red, green and blue from 0 to 0xffff.
// It goes to the root of the screens as a message.
type Ground struct {
	R, G, B uint16
	Late    bool // it came after the screens had stopped waiting for it: it counts from the next start
}
