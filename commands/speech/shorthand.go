package speech

// shorthand are words as thumbs type them and as they are said in the north, with what they stand for.
var shorthand = map[string]string{
	"wich": "which", "wat": "what", "wot": "what", "wht": "what", "waht": "what", "whta": "what", "hw": "how", "hwo": "how", "howe": "how",
	"teh": "the", "hte": "the", "adn": "and", "nad": "and", "u": "you", "ur": "your", "hlep": "help", "hepl": "help", "hlp": "help",
	"thk": "thick", "thck": "thick", "tk": "thick", "lg": "long", "lng": "long", "wd": "wide", "wid": "wide", "len": "length", "mcuh": "much",
	"ruff": "rough", "ruf": "rough", "roug": "rough", "rouhg": "rough", "fo": "for", "fro": "for", "frm": "from", "wiht": "with", "wth": "with",
	"whats": "what's", "thats": "that's", "dont": "don't", "cant": "can't", "im": "i'm", "ive": "i've", "wats": "what's", "wots": "what's",
	"vol": "volume", "qty": "quantity", "temp": "temperature", "wt": "weight", "approx": "about", "mitring": "mitre", "clmps": "clamps", "clamsp": "clamps",
	"fae": "from", "frae": "from", "tae": "to", "lang": "long", "breit": "wide", "dae": "do", "whit": "what", "hoo": "how", "oot": "out", "doon": "down",
	"aboot": "about", "noo": "now", "twa": "two", "owt": "anything", "mek": "make", "tek": "take", "fower": "four", "gie": "give", "nite": "night", "tonite": "tonight", "til": "till", "wan": "one", "diaganol": "diagonal", "diagnol": "diagonal", "diagnal": "diagonal", "diaganal": "diagonal", "diagnols": "diagonals", "diaganols": "diagonals", "ither": "other", "meer": "more", "thon": "that",
}
