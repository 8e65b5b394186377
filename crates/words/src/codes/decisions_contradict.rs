//! `decisions-contradict`

code! {
    "decisions-contradict"
    title: "Two locked decisions contradict each other" | "Zwei Festlegungen widersprechen sich",
    message: "no design keeps both \"{one}\" and \"{other}\"" | "Kein Entwurf hält „{one}“ und „{other}“ zugleich ein",
    hint: "take one of the two rows away, or join them" | "eine der beiden Zeilen streichen oder beide zusammenfassen",
    english:
        /// Two rows ask for two models of box at one place, or for two cables to one dwelling, or a dwelling stands in two rows of those that are
        /// to be on one run.
    german:
        /// Zwei Zeilen verlangen zwei Verteilermodelle an einem Ort oder zwei Leitungen zu einer Wohnung, oder eine Wohnung steht in zwei Zeilen
        /// derer, die an einem Strang sein sollen.
}
