//! `too-many-columns`

code! {
    "too-many-columns"
    title: "A cell beyond the last column that is read" | "Eine Zelle hinter der letzten Spalte, die gelesen wird",
    message:
        "this cell and what else stands beyond the first {limit} columns is not read"
        | "Diese Zelle und was sonst hinter den ersten {limit} Spalten steht, wird nicht gelesen",
    hint:
        "move it to the left if it belongs to the survey, or empty it"
        | "nach links rücken, wenn es zur Aufnahme gehört, sonst leeren",
    english:
        /// No sheet of a survey needs so many columns. What stands further to the right was usually put there by mistake, and would be lost
        /// without a word. The sheet is read up to that column. The first such cell of each sheet is shown.
    german:
        /// So viele Spalten braucht kein Blatt einer Aufnahme. Was weiter rechts steht, ist meist aus Versehen dorthin geraten und ginge sonst
        /// ohne ein Wort verloren. Das Blatt wird bis zu dieser Spalte gelesen. Gezeigt wird von jedem Blatt die erste solche Zelle.
}
