//! Revisions and sites as rows of the database.

use crate::StoreError;
use crate::content;
use crate::database::{Row, Statements, Value};
use crate::revision::{Kind, Number, Revision, Signed, SiteEntry, SiteId, State};
use crate::texts::Texts;
use latchline_words::refusals::{NotKept, StoreFault};

/// Columns of a revision, in their order.
pub(crate) const REVISION_COLUMNS: &str =
    "r.number, r.parent, r.kind, r.takes_back, r.hash, r.at_ms, r.by_whom, r.client, r.engine, r.note";
/// Columns of a revision in a row.
pub(crate) const REVISION_WIDTH: usize = 10;

pub(crate) fn no_site(site: SiteId) -> StoreError {
    StoreError::not_there(&NotKept::SiteNumber { number: &site.0.to_string() })
}

pub(crate) fn head_number(statements: &mut dyn Statements, site: SiteId) -> Result<Number, StoreError> {
    let row = statements.row("select head from site where id = $1", &[site.0.into()])?;
    row.map(|row| Number(row.integer(0))).ok_or_else(|| no_site(site))
}

/// A revision that is to be written.
pub(crate) struct New<'n> {
    pub number: Number,
    pub parent: Option<Number>,
    pub kind: Kind,
    pub of: Option<Number>,
    pub texts: &'n Texts,
    pub signed: &'n Signed,
}

/// Writes a revision with its texts; the texts of its parent, if given, make what is kept shorter.
pub(crate) fn insert(
    statements: &mut dyn Statements,
    site: SiteId,
    new: &New<'_>,
    before: Option<&Texts>,
) -> Result<Revision, StoreError> {
    let New { number, parent, kind, of, texts, signed } = *new;
    let hash = texts.hash();
    statements.run(
        "insert into revision (site, number, parent, kind, takes_back, hash, engine, at_ms, by_whom, client, note)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
        &[
            site.0.into(),
            number.0.into(),
            parent.map(|number| number.0).into(),
            kind.word().into(),
            of.map(|number| number.0).into(),
            hash.as_str().into(),
            signed.engine.as_str().into(),
            signed.at_ms.into(),
            signed.by.as_str().into(),
            signed.client.as_str().into(),
            signed.note.as_str().into(),
        ],
    )?;
    for (place, (path, text)) in texts.files().enumerate() {
        let before = before.and_then(|before| before.get(path)).map(|text| &**text);
        let kept = content::keep(statements, text, before)?;
        statements.run(
            "insert into revision_text (site, number, place, path, hash) values ($1, $2, $3, $4, $5)",
            &[site.0.into(), number.0.into(), (place as i64).into(), path.into(), kept.into()],
        )?;
    }
    let signed = signed.clone();
    Ok(Revision { number, parent, kind, of, hash, signed, names: Vec::new() })
}

pub(crate) fn no_revision(number: Number) -> StoreError {
    StoreError::not_there(&NotKept::Revision { number: &number.0.to_string() })
}

/// One revision without its texts.
pub(crate) fn one_revision(
    statements: &mut dyn Statements,
    site: SiteId,
    number: Number,
) -> Result<Revision, StoreError> {
    let sql = format!("select {REVISION_COLUMNS} from revision r where r.site = $1 and r.number = $2");
    let row = statements.row(&sql, &[site.0.into(), number.0.into()])?;
    let mut found = row.map(|row| revision(&row)).ok_or_else(|| no_revision(number))?;
    name_all(statements, site, std::slice::from_mut(&mut found))?;
    Ok(found)
}

/// One revision with its texts.
pub(crate) fn state(
    statements: &mut dyn Statements,
    place: &str,
    site: SiteId,
    number: Number,
) -> Result<State, StoreError> {
    let revision = one_revision(statements, site, number)?;
    let sql = "select path, hash from revision_text where site = $1 and number = $2 order by place";
    let files = statements.rows(sql, &[site.0.into(), number.0.into()])?;
    let mut texts: Option<Texts> = None;
    for file in files {
        let (path, text) = (file.text(0), content::text(statements, place, &file.text(1))?);
        match &mut texts {
            Some(texts) => texts.put(&path, text)?,
            None => texts = Some(Texts::new(&path, text)?),
        }
    }
    let missing = || StoreError::Damaged {
        place: place.to_string(),
        detail: StoreFault::RevisionWithoutText { number: &number.0.to_string() }.both(),
    };
    Ok(State { revision, texts: texts.ok_or_else(missing)? })
}

pub(crate) fn revision(row: &Row) -> Revision {
    Revision {
        number: Number(row.integer(0)),
        parent: row.optional(1).map(Number),
        kind: Kind::of_word(&row.text(2)),
        of: row.optional(3).map(Number),
        hash: row.text(4),
        signed: Signed {
            at_ms: row.integer(5),
            by: row.text(6),
            client: row.text(7),
            engine: row.text(8),
            note: row.text(9),
        },
        names: Vec::new(),
    }
}

pub(crate) fn site_entry(row: &Row) -> SiteEntry {
    SiteEntry {
        id: SiteId(row.integer(REVISION_WIDTH)),
        name: row.text(REVISION_WIDTH + 1),
        file: row.text(REVISION_WIDTH + 2),
        head: revision(row),
    }
}

/// Finds the names of revisions.
pub(crate) fn name_all(
    statements: &mut dyn Statements,
    site: SiteId,
    revisions: &mut [Revision],
) -> Result<(), StoreError> {
    let (Some(first), Some(last)) =
        (revisions.iter().map(|one| one.number).min(), revisions.iter().map(|one| one.number).max())
    else {
        return Ok(());
    };
    let values: [Value; 3] = [site.0.into(), first.0.into(), last.0.into()];
    let sql = "select name, number from named where site = $1 and number between $2 and $3 order by name";
    for row in statements.rows(sql, &values)? {
        let number = Number(row.integer(1));
        if let Some(revision) = revisions.iter_mut().find(|revision| revision.number == number) {
            revision.names.push(row.text(0));
        }
    }
    Ok(())
}
