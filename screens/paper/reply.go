package paper

import (
	"context"
	"io"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/code"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/present"
)

// ReplySlip is what a shop answers to a visit slip, with the whole reply in codes.
const ReplySlip Kind = "reply-slip"

// answer is what the paper of a reply shows.
type answer struct {
	reply  slip.Reply
	shown  present.Reply
	advice []present.VisitRow // in each language that the shop gave it in
	codes  []code.Matrix      // none where they were too many
}

// WriteReply makes the paper of a reply whose file was made ready, as by
// keeper.ReplyFile, and writes it to out: the codes carry that very file, with its
// signature. Errors: *slip.Error for a file that is no reply; ctx's own, those of out.
func WriteReply(ctx context.Context, k *keeper.Keeper, file []byte, p present.Presenter, size Size, out io.Writer) error {
	in, err := gatherReply(ctx, k, file, p, size)
	if err != nil {
		return err
	}
	return write(out, ReplySlip, in, true)
}

func gatherReply(ctx context.Context, k *keeper.Keeper, file []byte, p present.Presenter, size Size) (Input, error) {
	p.Kit = k.KitOf
	o, err := k.OpenFile(ctx, file)
	if err != nil {
		return Input{}, err
	}
	if o.Format != slip.FormatReply {
		return Input{}, &slip.Error{Code: slip.CodeOther}
	}
	r := o.Reply.Reply
	a := &answer{reply: r, shown: p.Reply(o.Reply)}
	for _, n := range p.NotesByTongue(r.Advice) {
		a.advice = append(a.advice, present.VisitRow{Name: n.Name, Text: n.Value})
	}
	if a.codes, err = codesOrNone(file); err != nil {
		return Input{}, err
	}
	in := Input{Reply: a, Presenter: p, Size: size}
	in.Record.Name = a.shown.From[0]
	in.Record.Now, err = r.Made.Parse()
	return in, err
}

// replySlip sets the reply: from whom, to which slip, each proposal with its reason, and
// the codes.
func (f *flow) replySlip(in *Input) {
	w, a := in.Presenter.W, in.Reply
	s := &stack{x: f.left(), w: f.width()}
	for _, block := range a.shown.From[1:] { // the name stands below the title
		for _, line := range strings.Split(block, "\n") {
			s.text(line, bodyFont)
		}
		s.gap(1)
	}
	s.text(a.shown.Beside, noteInk)
	s.text(w.T("paper.reply.to", i18n.Args{"Number": a.reply.Visit}), noteFont)
	f.add(s.block(2.5))
	for _, x := range a.shown.Items {
		head := f.small(x.Title)
		head.with = x.ID == keeper.ItemAdvice || len(x.Lines) > 0 || x.Why != ""
		f.add(head)
		if x.ID == keeper.ItemAdvice {
			for _, n := range a.advice {
				if len(a.advice) > 1 {
					f.add(f.text(n.Name, noteFont, 1)...)
				}
				for _, line := range strings.Split(n.Text, "\n") {
					f.add(f.text(line, bodyFont, 0.4)...)
				}
			}
			continue
		}
		for _, l := range append(x.Lines, x.Why) {
			if l != "" {
				f.add(f.text(l, bodyFont, 0.4)...)
			}
		}
	}
	f.codes(in, a.codes, "paper.reply.read")
}
