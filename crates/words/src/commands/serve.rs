//! `serve`.

use crate::row::sentences;

sentences! {
    /// What `serve` says at the terminal.
    pub enum ServeWords<'a> {
        At { address: &'a str }: "the office page is at {address}" | "die Büroseite ist unter {address}",
        Demo:
            "the demo: nothing is kept when it ends. Ctrl-C ends it"
            | "die Vorführanlage: nichts bleibt, wenn sie endet. Strg-C beendet sie",
        Kept { store: &'a str }:
            "edits are kept in {store} and written to the site files. Ctrl-C ends it"
            | "Änderungen bleiben in {store} und werden in die Anlagendateien geschrieben. Strg-C beendet sie",
        NoBrowser:
            "no browser could be opened: go to the address above"
            | "kein Browser ließ sich öffnen: die Adresse oben aufrufen",
        Ended: "ended" | "beendet",
    }
}
