//! `names-made-one-word`

code! {
    "names-made-one-word"
    title: "Names become one word" | "Namen werden ein Wort",
    message:
        "\"{written}\" is {name} in the site file, on drawings and labels<; so are {others:name more|names more}>"
        | "„{written}“ heißt in der Anlagendatei, auf Zeichnungen und Etiketten {name}<; ebenso {others:ein weiterer|weitere} mit Leerzeichen>",
    hint: "nothing to do where that will do; otherwise name it so in the survey too"
        | "nichts zu tun, wenn das recht ist; sonst in der Erfassung gleich so nennen",
    english:
        /// A name with spaces. In the site file a name is one word, since lists and runs are written with it: spaces become hyphens.
        ///
        /// Nothing needs doing. Who wants another word on drawings and labels writes it in the survey; what stands on name plates is
        /// what a dwelling has under Label, which may have spaces.
    german:
        /// Ein Name mit Leerzeichen. In der Anlagendatei ist ein Name ein Wort, da Listen und Stränge ihn enthalten: Aus Leerzeichen werden
        /// Bindestriche.
        ///
        /// Es ist nichts zu tun. Wer auf Zeichnungen und Etiketten ein anderes Wort will, schreibt es in die Erfassung; auf Namensschildern
        /// steht, was bei einer Wohnung unter Label steht; das darf Leerzeichen haben.
}
