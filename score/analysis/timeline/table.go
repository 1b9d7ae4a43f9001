package timeline

import "tieover/score/analysis/grouping"

// The sources of the table.
var (
	clave  = Source{"Toussaint 2002", "G. T. Toussaint, A mathematical analysis of African, Brazilian and Cuban clave rhythms, BRIDGES 2002"}
	euclid = Source{"Toussaint 2005", "G. T. Toussaint, The Euclidean algorithm generates traditional musical rhythms, BRIDGES 2005 (second-hand)"}
	gomez  = Source{"Gómez and others 2005", "F. Gómez, A. Melvin, D. Rappaport, G. T. Toussaint, Mathematical measures of syncopation, BRIDGES 2005 (second-hand)"}
	memory = Source{"from memory", "the name is common knowledge; no source was at hand"}

	dance     = Source{"folkdancefootnotes.org", "folkdancefootnotes.org, Bulgarian dance rhythms; eliznik.org.uk"}
	eliznik   = Source{"eliznik.org.uk", "length: eliznik.org.uk; grouping from memory"}
	gankino   = Source{"mrco-cambridge.org", "mrco-cambridge.org, piece 94; eliznik.org.uk"}
	buchimish = Source{"Unciano 1988", "R. Unciano 1988 (second-hand)"}
	folk      = Source{"encyclopedia", "encyclopedia article on Bulgarian folk dance"}
	differing = Source{"encyclopedia, versions differ", "encyclopedia article on Bulgarian folk dance; its versions differ"}
)

// all is read-only; the order is that of the printed lists.
var all = []Pattern{
	{Timeline, "tresillo", box("x..x..x."), memory},
	{Timeline, "cinquillo", box("x.xx.xx."), memory},
	{Timeline, "shiko", box("x...x.x...x.x..."), gomez},
	{Timeline, "son clave 3-2", box("x..x..x...x.x..."), clave},
	{Timeline, "son clave 2-3", box("..x.x...x..x..x."), clave},
	{Timeline, "rumba clave 3-2", box("x..x...x..x.x..."), gomez},
	{Timeline, "rumba clave 2-3", box("..x.x...x..x...x"), gomez},
	{Timeline, "soukous", box("x..x..x...xx...."), gomez},
	{Timeline, "gahu", box("x..x..x...x...x."), gomez},
	{Timeline, "bossa-nova", box("x..x..x...x..x.."), gomez},
	{Timeline, "soli", box("x.x.x.x.xx.x"), gomez},
	{Timeline, "tambú", box("x.x.x.xx.x.x"), gomez},
	{Timeline, "bembé (standard bell)", box("x.x.xx.x.x.x"), gomez},
	{Timeline, "bembé-2", box("xx.x.xx.x.x."), gomez},
	{Timeline, "Yoruba", box("x.x.xx.x.xx."), gomez},
	{Timeline, "tonada", box("x.xx.xx.x.x."), gomez},
	{Timeline, "asaadua", box("x.x.x.xx.xx."), gomez},
	{Timeline, "sorsonet", box("xxx.x.x.x.x."), gomez},
	{Timeline, "bemba", box("x.xx.x.x.xx."), gomez},
	{Timeline, "Ashanti", box("x.xx.x.xx.x."), gomez},
	{Timeline, "West African and Latin American pattern", box("x.x"), euclid},
	{Timeline, "Khafif-e-ramal", box("x.x.."), euclid},
	{Timeline, "cumbia, calypso", box("x.xx"), euclid},
	{Timeline, "ruchenitza", box("x.x.x.."), euclid},
	{Timeline, "ruchenitza, second form", box("x.x.x.x"), euclid},
	{Timeline, "aksak", box("x.x.x.x.."), euclid},
	{Timeline, "nawakhat", box("x.xx.xx"), euclid},
	{Timeline, "agsag-samai", box("x.x.x.x.x"), euclid},
	{Timeline, "Venda clapping pattern", box("x..x.x..x.x."), euclid},
	{Timeline, "bendir pattern", box("x.xxxxxx"), euclid},
	{Timeline, "samba necklace", box("x..x.x.x..x.x.x."), euclid},
	{Timeline, "Central African and Brazilian necklace", box("x.xx.x.x.xx.x.x."), euclid},
	{Timeline, "Aka necklace", box("x..x.x.x.x.x..x.x.x.x.x."), euclid},
	{Timeline, "Aka necklace, Upper Sangha", box("x.xx.x.x.x.x.xx.x.x.x.x."), euclid},
	{Timeline, "second Khafif-e-ramal", box("x.xx."), euclid},
	{Timeline, "york-samai", box("xxxxx."), euclid},
	{Timeline, "Spanish tango pattern", box("xx.xx.x."), euclid},
	{Timeline, "Venda drum pattern", box("x.x.x.xx."), euclid},
	{Meter, "pajduško", grouping.Of(2, 3), dance},
	{Meter, "račenica", grouping.Of(2, 2, 3), eliznik},
	{Meter, "četvorno, lesnoto", grouping.Of(3, 2, 2), eliznik},
	{Meter, "dajčovo", grouping.Of(2, 2, 2, 3), eliznik},
	{Meter, "gankino, kopanica", grouping.Of(2, 2, 3, 2, 2), gankino},
	{Meter, "krivo sadovsko", grouping.Of(2, 2, 2, 3, 2, 2), eliznik},
	{Meter, "bučimiš", grouping.Of(2, 2, 2, 2, 3, 2, 2), buchimish},
	{Meter, "traičovo", grouping.Of(4, 3, 2, 2), folk},
	{Meter, "žensko, beranče", grouping.Of(3, 2, 2, 3, 2), folk},
	{Meter, "eleno mome", grouping.Of(2, 2, 1, 2), differing},
	{Meter, "eleno mome, second reading", grouping.Of(3, 4, 2, 3), differing},
	{Meter, "eleno mome, third reading", grouping.Of(4, 4, 2, 3), differing},
}
