//! `look-alike-name`

code! {
    "look-alike-name"
    title: "A name can be taken for another" | "Ein Name ist mit einem anderen zu verwechseln",
    message:
        "the name \"{name}\" is not what it seems: it holds {signs}"
        | "Der Name „{name}“ ist nicht, was er scheint: er enthält {signs}",
    label: "<looks like \"{other}\">" | "<sieht aus wie „{other}“>",
    hint:
        "type the name afresh, here and where it is used"
        | "den Namen neu eintippen, hier und wo er benutzt wird",
    english:
        /// Names are compared sign by sign. This one holds signs that nobody sees (zero width), letters of another script in a word of Latin letters (a Cyrillic А), or a dash or space that only looks like the usual one, so that on a label or in a message it reads like another name. `signs` gives them by their Unicode numbers; `other` is the name on site that it looks like.
        ///
        /// Example: `"A\u200B-1"`. Type the name afresh, here and where it is used.
    german:
        /// Namen werden Zeichen für Zeichen verglichen. Dieser enthält Zeichen, die niemand sieht (ohne Breite), Buchstaben einer anderen Schrift in einem lateinischen Wort (ein kyrillisches А) oder einen Strich oder ein Leerzeichen, das nur so aussieht wie das übliche; auf einem Schild oder in einer Meldung liest er sich darum wie ein anderer Name. `signs` nennt sie mit ihren Unicode-Nummern; `other` ist der Name auf der Anlage, dem er gleicht.
        ///
        /// Beispiel: `"A\u200B-1"`. Den Namen neu eintippen, hier und wo er benutzt wird.
}
