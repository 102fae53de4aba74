package claim

import (
	"errors"
	"strings"
	"syscall"

	"golang.org/x/sys/windows"
	"golang.org/x/sys/windows/registry"
)

// Can reports whether this system has records that a program can write by itself.
func Can() bool { return true }

// classes is where the file types of the person who is signed in stand, below
// HKEY_CURRENT_USER. Source: Microsoft, "File Types and File Associations", HKCR.
const classes = `Software\Classes\`

// valueBefore keeps, in the key of a kind, what its ending belonged to before.
const valueBefore = "Before"

// kindKey is the key of a kind, apart from classes: a programmatic identifier.
func (c Claim) kindKey(k Kind) string { return c.Name + "." + k.Code }

// values of a kind: its name, its icon and the command, by their keys below classes.
func (c Claim) values(k Kind) map[string]string {
	words := make([]string, len(c.Program))
	for i, w := range c.Program {
		words[i] = syscall.EscapeArg(w)
	}
	if !strings.HasPrefix(words[0], `"`) {
		words[0] = `"` + words[0] + `"` // or a space in front of it would be taken for its end
	}
	name, ok := k.Names[c.Lang]
	if !ok {
		name = k.Names["en"]
	}
	key := c.kindKey(k)
	return map[string]string{key: name, key + `\DefaultIcon`: words[0] + ",0", key + `\shell\open\command`: strings.Join(words, " ") + ` -- "%1"`}
}

// State tells how the claim stands. Errors: the system's own.
func (c Claim) State() (State, error) {
	s := State{Made: true}
	for _, k := range c.Kinds {
		key := c.kindKey(k)
		s.Places = append(s.Places, `HKEY_CURRENT_USER\`+classes+k.Ending, `HKEY_CURRENT_USER\`+classes+key)
		owner, err := read(k.Ending, "")
		if err != nil {
			return State{Places: s.Places}, err
		}
		command := key + `\shell\open\command`
		there, err := read(command, "")
		if err != nil {
			return State{Places: s.Places}, err
		}
		s.Some = s.Some || owner == key || there != ""
		s.Made = s.Made && owner == key && there == c.values(k)[command]
	}
	return s, nil
}

// Make writes the keys and has the system take notice. Errors: the system's own,
// after which what was written is taken back.
func (c Claim) Make() error {
	for _, k := range c.Kinds {
		if err := c.makeKind(k); err != nil {
			return errors.Join(err, c.TakeBack())
		}
	}
	notice()
	return nil
}

func (c Claim) makeKind(k Kind) error {
	key := c.kindKey(k)
	owner, err := read(k.Ending, "")
	if err != nil {
		return err
	}
	if owner != key && owner != "" {
		if err := write(key, valueBefore, owner); err != nil {
			return err
		}
	}
	for at, value := range c.values(k) {
		if err := write(at, "", value); err != nil {
			return err
		}
	}
	return write(k.Ending, "", key)
}

// TakeBack takes the keys away. An ending that belonged to another program goes back
// to it; one that another program has taken since stays with it. Errors: the system's
// own.
func (c Claim) TakeBack() error {
	var first error
	for _, k := range c.Kinds {
		if err := c.takeBackKind(k); err != nil && first == nil {
			first = err
		}
	}
	notice()
	return first
}

func (c Claim) takeBackKind(k Kind) error {
	key := c.kindKey(k)
	owner, err := read(k.Ending, "")
	if err != nil {
		return err
	}
	before, err := read(key, valueBefore)
	if err != nil {
		return err
	}
	switch {
	case owner == key && before != "":
		err = write(k.Ending, "", before)
	case owner == key:
		err = free(k.Ending)
	}
	if err != nil {
		return err
	}
	for _, at := range []string{`\shell\open\command`, `\shell\open`, `\shell`, `\DefaultIcon`, ""} { // a key goes once it holds no others
		if err := remove(key + at); err != nil {
			return err
		}
	}
	return nil
}

// read gives a text of a key below classes, "" where there is none.
func read(key, value string) (string, error) {
	k, err := registry.OpenKey(registry.CURRENT_USER, classes+key, registry.QUERY_VALUE)
	if errors.Is(err, registry.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	defer k.Close()
	s, _, err := k.GetStringValue(value)
	if errors.Is(err, registry.ErrNotExist) || errors.Is(err, registry.ErrUnexpectedType) {
		return "", nil
	}
	return s, err
}

func write(key, value, text string) error {
	k, _, err := registry.CreateKey(registry.CURRENT_USER, classes+key, registry.SET_VALUE)
	if err != nil {
		return err
	}
	return errors.Join(k.SetStringValue(value, text), k.Close())
}

// free makes an ending nobody's: its key goes, unless the shell has put more there.
func free(key string) error {
	k, err := registry.OpenKey(registry.CURRENT_USER, classes+key, registry.SET_VALUE|registry.ENUMERATE_SUB_KEYS|registry.QUERY_VALUE)
	if err != nil {
		return err
	}
	err = k.DeleteValue("")
	info, statErr := k.Stat()
	if err = errors.Join(err, statErr, k.Close()); err != nil || info.SubKeyCount+info.ValueCount > 0 {
		return err
	}
	return remove(key)
}

// remove takes a key away that holds no others; one that is not there is no fault.
func remove(key string) error {
	err := registry.DeleteKey(registry.CURRENT_USER, classes+key)
	if errors.Is(err, registry.ErrNotExist) {
		return nil
	}
	return err
}

var changed = windows.NewLazySystemDLL("shell32.dll").NewProc("SHChangeNotify")

// notice tells the shell that file types changed, so that it looks anew. Source:
// Microsoft, SHChangeNotify: SHCNE_ASSOCCHANGED with SHCNF_IDLIST.
func notice() {
	const associations, list = 0x08000000, 0
	if changed.Find() == nil { // without it the shell finds out by itself, later
		_, _, _ = changed.Call(associations, list, 0, 0)
	}
}
