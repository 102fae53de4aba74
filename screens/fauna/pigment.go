package fauna

import "example.org/driploop/screens/look"

// pigments are the colours that the table names.
var pigments = map[string]look.Name{
	"white": look.PigmentWhite, "silver": look.PigmentSilver, "grey": look.PigmentGrey, "black": look.PigmentBlack,
	"brown": look.PigmentBrown, "tan": look.PigmentTan, "olive": look.PigmentOlive, "yellow": look.PigmentYellow, "gold": look.PigmentGold,
	"orange": look.PigmentOrange, "red": look.PigmentRed, "rose": look.PigmentRose, "blue": look.PigmentBlue, "azure": look.PigmentAzure,
	"green": look.PigmentGreen, "violet": look.PigmentViolet,
}
