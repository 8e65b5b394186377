//! `nested-too-deeply`

code! {
    "nested-too-deeply"
    title: "Brackets or dotted keys are nested too deeply" | "Klammern oder Schlüssel sind zu tief verschachtelt",
    message:
        "brackets or dotted keys are nested more than {limit} deep"
        | "Klammern oder gepunktete Schlüssel sind mehr als {limit} tief verschachtelt",
    label: "here it gets too deep" | "hier wird es zu tief",
    hint:
        "look for a bracket that is opened again and again"
        | "nach einer Klammer suchen, die immer wieder geöffnet wird",
    english:
        /// Arrays, inline tables and dotted keys may be nested 80 levels deep. No site needs more than four.
        ///
        /// Look for a bracket that was opened again and again, or for a dotted key that never ends.
    german:
        /// Listen, Tabellen in einer Zeile und gepunktete Schlüssel dürfen 80 Ebenen tief verschachtelt sein. Keine Anlage braucht mehr als vier.
        ///
        /// Nach einer Klammer suchen, die immer wieder geöffnet wurde, oder nach einem gepunkteten Schlüssel, der nie endet.
}
