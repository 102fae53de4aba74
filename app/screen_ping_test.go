//go:build e2e && linux

package main

import (
	"io"
	"strconv"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// pinger asks windows for a sign of life. A program gets its keys and this question by
// one queue and answers in turn: once the answer is there, it has handled every key
// that was pressed before. Source: Extended Window Manager Hints 1.5, _NET_WM_PING.
type pinger struct {
	x               *xgb.Conn
	root            xproto.Window
	protocols, ping xproto.Atom
	asked           uint32 // how often, which tells the answers apart
}

func newPinger(t testing.TB, display string) *pinger {
	t.Helper()
	xgb.Logger.SetOutput(io.Discard) // it regrets that the display asks for no password
	x, err := xgb.NewConnDisplay(display)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(x.Close)
	p := &pinger{x: x, root: xproto.Setup(x).DefaultScreen(x).Root}
	for name, to := range map[string]*xproto.Atom{"WM_PROTOCOLS": &p.protocols, "_NET_WM_PING": &p.ping} {
		r, err := xproto.InternAtom(x, false, uint16(len(name)), name).Reply()
		if err != nil {
			t.Fatal(err)
		}
		*to = r.Atom
	}
	// The answer goes to whoever hears what happens to the windows of the root.
	if err := xproto.ChangeWindowAttributesChecked(x, p.root, xproto.CwEventMask, []uint32{xproto.EventMaskSubstructureNotify}).Check(); err != nil {
		t.Fatal(err)
	}
	// A key whose release comes late, as on a busy machine, is one key.
	if err := xproto.ChangeKeyboardControlChecked(x, xproto.KbAutoRepeatMode, []uint32{xproto.AutoRepeatModeOff}).Check(); err != nil {
		t.Fatal(err)
	}
	return p
}

// ask asks a window and tells the number of the question, or that there is no such
// window.
func (p *pinger) ask(window xproto.Window) (number uint32, is bool) {
	p.asked++
	ask := xproto.ClientMessageEvent{Format: 32, Window: window, Type: p.protocols,
		Data: xproto.ClientMessageDataUnionData32New([]uint32{uint32(p.ping), p.asked, uint32(window), 0, 0})}
	return p.asked, xproto.SendEventChecked(p.x, false, window, xproto.EventMaskNoEvent, string(ask.Bytes())).Check() == nil
}

// answered tells whether the answer to a question has come.
func (p *pinger) answered(number uint32) bool {
	for {
		e, err := p.x.PollForEvent()
		if e == nil && err == nil {
			return false
		}
		m, ok := e.(xproto.ClientMessageEvent)
		if ok && m.Window == p.root && m.Type == p.protocols && m.Data.Data32[0] == uint32(p.ping) && m.Data.Data32[1] == number {
			return true
		}
	}
}

// settle waits until the program has handled all that was pressed, or has ended, or its
// window is no more.
func (p *program) settle() {
	p.t.Helper()
	id, err := strconv.ParseUint(p.window, 10, 32)
	if err != nil {
		p.t.Fatal(err)
	}
	window := xproto.Window(id)
	number, is := p.pinger.ask(window)
	for end := time.Now().Add(patience); is && !p.pinger.answered(number); time.Sleep(time.Millisecond) {
		select {
		case <-p.done:
			return
		default:
		}
		if _, err := xproto.GetWindowAttributes(p.pinger.x, window).Reply(); err != nil {
			return
		}
		if time.Now().After(end) {
			p.t.Fatalf("waited %v: the program does not take its keys", patience)
		}
	}
}
