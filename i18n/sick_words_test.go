package i18n

import (
	"regexp"
	"strings"
	"testing"

	goi18n "github.com/nicksnyder/go-i18n/v2/i18n"
)

// illnesses and remedies are never named, in any message of the program: that is
// for a veterinarian. Source: names in common and Latin use, from memory.
var unnamed = regexp.MustCompile(`(?i)\b(ichthyophthirius|white spot disease|punto blanco|velvet|terciopelo|oodinium|piscinoodinium|dropsy|hidropes[ií]a|` +
	`fin rot|podredumbre de (las )?aletas|columnaris|flexibacter|flavobacterium|saprolegnia|mycobacteri\w*|tuberculosis|micobacteri\w*|costia|ichthyobodo|hexamita|spironucleus|` +
	`hole.in.the.head|lymphocystis|linfocistis|septic\w*|pleistophora|chilodonella|trichodina|dactylogyrus|gyrodactylus|argulus|lernaea|camallanus|aeromonas|vibriosis|` +
	`swim bladder disease|parasit\w*|par[aá]sit\w*|fung(us|i|al)|hongos?|virus|tumou?rs?|malachite|malaquita|methylene|metileno|formalin|formol|metronidazol\w*|praziquantel|` +
	`levamisol\w*|fenbendazol\w*|antibiotic\w*|antibi[oó]tic\w*|kanamycin|kanamicina|nitrofurazone?|acriflavin\w*|oxytetracycline|oxitetraciclina|erythromycin|eritromicina|` +
	`epsom|salt bath|ba[nñ]o de sal|copper sulph?ate|sulfato de cobre|medication|medicaci[oó]n|medicin\w*|medicamento\w*)\b`)

// unnamedIn are names that are words of another language as well.
var unnamedIn = map[string]*regexp.Regexp{
	"en": regexp.MustCompile(`(?i)\b(ich|ick)\b`), "es": regexp.MustCompile(`(?i)\b(ich|ick)\b`),
	"de": regexp.MustCompile(`(?i)\b(pünktchen\w*|weißpunkt\w*|bauchwassersucht|flossenfäule|samtkrankheit|pilze?|antibiotik\w*|malachit\w*|medikament\w*|arznei\w*)`),
	"fr": regexp.MustCompile(`(?i)(points blancs|hydropisie|pourriture des nageoires|velours|champignons?|antibiotique|médicament)`),
	"it": regexp.MustCompile(`(?i)(puntini bianchi|idropisia|corrosione delle pinne|fung[oh]|antibiotic|medicinal|farmac)`),
	"pt": regexp.MustCompile(`(?i)(pontos brancos|íctio|hidropsia|podridão das nadadeiras|fungos?\b|antibiótico|medicament|remédio)`),
	"nl": regexp.MustCompile(`(?i)(witte stip|buikwaterzucht|vinrot|fluweelziekte|schimmels?\b|antibiotic|medicijn|geneesmiddel)`),
	"pl": regexp.MustCompile(`(?i)(ospa rybia|rybia ospa|puchlina|pleśniawka|grzyb|antybiotyk|lekarstw)`),
	"tr": regexp.MustCompile(`(?i)(beyaz benek|antibiyotik|ilaç)`),
	"uk": regexp.MustCompile(`(?i)(крапчак|водянка|грибок|антибіотик|ліками|ліків)`),
	"ja": regexp.MustCompile(`(白点病|水カビ|尾ぐされ|松かさ|抗生物質|薬浴|メチレンブルー)`),
	"zh": regexp.MustCompile(`(白点病|白點病|水霉|烂尾|竖鳞|抗生素|药浴|亚甲)`),
}

// What may not stand in the words of a fish that looks wrong beside that.
var notOnCases = regexp.MustCompile(`(?i)\b(bacteri\w*|infect\w*|infecc\w*|dos(e|is|es|age)|mg|treat the fish|trata al pez|cure[sd]?|cura\w*)\b`)

func TestNoIllnessAndNoRemedyIsNamed(t *testing.T) {
	n := 0
	eachMessage(func(lang, key string, m *goi18n.Message) {
		for _, text := range forms(m) {
			if found := unnamed.FindString(text); found != "" {
				t.Errorf("%s %q names %q: %q", lang, key, found, text)
			}
			if own := unnamedIn[baseOf(lang)]; own != nil && own.MatchString(text) {
				t.Errorf("%s %q names %q: %q", lang, key, own.FindString(text), text)
			}
			if !strings.Contains(key, "sick") && !strings.HasPrefix(key, "sign.") && !strings.HasPrefix(key, "paper.case") {
				continue
			}
			n++
			if found := notOnCases.FindString(text); found != "" {
				t.Errorf("%s %q says %q: %q", lang, key, found, text)
			}
		}
	})
	if n < 400 {
		t.Errorf("%d texts of cases were read, want at least 400", n)
	}
	for _, bad := range []string{"It may be dropsy.", "Add methylene blue.", "Es punto blanco", "un baño de sal"} {
		if !unnamed.MatchString(bad) {
			t.Errorf("%q would pass", bad)
		}
	}
}
