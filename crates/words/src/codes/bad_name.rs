//! `bad-name`

code! {
    "bad-name"
    title: "This name or text cannot be used" | "Dieser Name oder Text ist nicht verwendbar",
    message:
        "the name or text \"{name}\" cannot be used: {reason}"
        | "Der Name oder Text „{name}“ ist nicht verwendbar: {reason}",
    label: "{reason}" | "{reason}",
    english:
        /// Names and texts appear on drawings and labels, so they must not be empty, hold control characters, begin or end with a space, or be longer than 120 bytes; names of buildings, cores and floors must not hold `/`, which separates the parts of a place. A name with a point in it is written in quotes in the head of its table, `[cables."old-0.5"]`, since a bare point begins a table within the table. A range of names counts up from one to another that begins alike, and needs as many floors as its dwellings fill. `reason` says which of these it is; a range that fills too many floors is told once, at the first dwelling that has none.
    german:
        /// Namen und Texte stehen auf Zeichnungen und Schildern; sie dürfen darum nicht leer sein, keine Steuerzeichen enthalten, nicht mit einem Leerzeichen beginnen oder enden und nicht länger als 120 Bytes sein; Namen von Gebäuden, Treppenhäusern und Geschossen dürfen kein `/` enthalten, denn es trennt die Teile eines Orts. Ein Name mit einem Punkt steht im Kopf seiner Tabelle in Anführungszeichen, `[cables."old-0.5"]`, denn ein bloßer Punkt beginnt eine Tabelle in der Tabelle. Ein Bereich zählt von einem Namen zu einem anderen, der gleich beginnt, und braucht so viele Geschosse, wie seine Wohnungen füllen. `reason` sagt, was davon es ist; ein Bereich, der zu viele Geschosse füllt, wird einmal gemeldet, bei der ersten Wohnung ohne Geschoss.
}
