//! `cell-without-use`

code! {
    "cell-without-use"
    title: "Nothing takes what this cell says" | "Was in dieser Zelle steht, gilt für nichts",
    message: "\"{found}\" is not looked at: a decision of this kind has no such column" | "„{found}“ bleibt unbeachtet: Eine Festlegung dieser Art hat keine solche Spalte",
    english:
        /// Of the locked decisions only a route has another end, and only a box or a cable has a part. Look whether the row is of the kind that
        /// was meant.
    german:
        /// Von den Festlegungen hat nur ein Weg ein anderes Ende, und nur ein Verteiler oder eine Leitung ein Teil. Nachsehen, ob die Zeile von der
        /// Art ist, die gemeint war.
}
