//! Any document as a page of paper. What a person typed is a text node of its own
//! direction, so it is never markup and turns nothing around it.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::atomic::{AtomicUsize, Ordering};

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use web_sys::HtmlElement;

use super::keeper::Keeper;
use super::{dom, notices};
use crate::chart::{CHECKED_SIZE, Drawing, with_check_lines};
use crate::page::widgets::{Drawn, Readable, SaveDrawing, picture};
use crate::sheet::{
    Block, Cell, CellRole, Document, Group, Item, Notice, Oversize, Pictured, Table, Verdict,
    Weight, with_above,
};

/// Key of the notice that the browser does not print.
const NO_PRINT: &str = "no-print";

static TABLES: AtomicUsize = AtomicUsize::new(0);

/// Parts of a document that can be folded, and which are. A copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct Folds {
    /// Headings of the parts that can be.
    parts: &'static [&'static str],
    folded: RwSignal<BTreeSet<&'static str>>,
}

impl Folds {
    /// The parts of these headings, folded where the screen is narrow; all of them unfold to be
    /// printed, as paper cannot be.
    pub(super) fn of(parts: &'static [&'static str]) -> Self {
        let at_first = if dom::is_wide() { &[] } else { parts };
        let folded = RwSignal::new(at_first.iter().copied().collect());
        let prints = window_event_listener(ev::beforeprint, move |_| {
            folded.update(BTreeSet::clear);
        });
        on_cleanup(move || prints.remove());
        Self { parts, folded }
    }

    /// The heading of these blocks, if they can be folded.
    fn heading(self, blocks: &[Block]) -> Option<&'static str> {
        let Some(Block::Heading { text, .. }) = blocks.first() else {
            return None;
        };
        self.parts.iter().copied().find(|part| part == text)
    }

    fn set(self, part: &'static str, is_open: bool) {
        if self.folded.with_untracked(|folded| folded.contains(part)) == is_open {
            self.folded.update(|folded| {
                if is_open {
                    folded.remove(part);
                } else {
                    folded.insert(part);
                }
            });
        }
    }
}

/// A document on paper.
#[component]
pub(super) fn Paper(
    document: Document,
    /// Which of its parts can be folded.
    #[prop(optional)]
    folds: Option<Folds>,
) -> impl IntoView {
    let Document {
        title,
        about,
        language,
        blocks,
        ..
    } = document;
    let parts = by_heading(blocks).into_iter();
    let parts =
        parts.map(
            |blocks| match folds.and_then(|folds| Some((folds, folds.heading(&blocks)?))) {
                Some((folds, heading)) => folded(folds, heading, blocks),
                None => part(blocks),
            },
        );
    let parts = parts.collect_view();
    view! {
        <article class="part paper" lang=language>
            <header class="page-head">
                <div>
                    <h1 dir="auto">{title}</h1>
                    <p>{about}</p>
                </div>
            </header>
            {parts}
        </article>
    }
}

/// Blocks, each heading with what follows it as a section.
pub(super) fn show_blocks(blocks: Vec<Block>) -> AnyView {
    let parts = by_heading(blocks).into_iter().map(part);
    parts.collect_view().into_any()
}

/// Blocks in runs, each but the first beginning with a heading.
fn by_heading(blocks: Vec<Block>) -> Vec<Vec<Block>> {
    let mut runs: Vec<Vec<Block>> = Vec::new();
    for block in blocks {
        match runs.last_mut() {
            Some(run) if !matches!(block, Block::Heading { .. }) => run.push(block),
            _ => runs.push(vec![block]),
        }
    }
    runs
}

fn part(blocks: Vec<Block>) -> AnyView {
    view! { <section class="stack">{each(blocks)}</section> }.into_any()
}

/// A part whose heading folds it. A notice at its end stands outside: it is for all.
fn folded(folds: Folds, heading: &'static str, mut blocks: Vec<Block>) -> AnyView {
    let last = blocks.pop_if(|last| matches!(last, Block::Notice(_)));
    let rest: Vec<Block> = blocks.into_iter().skip(1).collect();
    let is_open = move || folds.folded.with(|folded| !folded.contains(heading));
    let toggled = move |event: ev::Event| {
        let target = event.target();
        let details = target.and_then(|target| target.dyn_into::<HtmlElement>().ok());
        if let Some(details) = details {
            folds.set(heading, details.has_attribute("open"));
        }
    };
    view! {
        <details class="paper-part" prop:open=is_open on:toggle=toggled>
            <summary><h2>{heading}</h2></summary>
            <div class="stack">{each(rest)}</div>
        </details>
        {each(last.into_iter().collect())}
    }
    .into_any()
}

fn each(blocks: Vec<Block>) -> Vec<AnyView> {
    let captions: Vec<bool> = with_above(&blocks).map(has_caption).collect();
    let shown = blocks.into_iter().zip(captions);
    shown.map(|(one, caption)| block(one, caption)).collect()
}

fn has_caption((above, block): (Option<&Block>, &Block)) -> bool {
    !matches!(block, Block::Table(table) if table.repeats(above))
}

fn block(block: Block, has_caption: bool) -> AnyView {
    match block {
        Block::Heading { level: 3.., text } => view! { <h3>{text}</h3> }.into_any(),
        Block::Heading { text, .. } => view! { <h2>{text}</h2> }.into_any(),
        Block::Paragraph(text) => view! { <p dir="auto">{text}</p> }.into_any(),
        Block::Facts(facts) => {
            let facts = facts.into_iter().map(|fact| {
                view! { <div><dt>{fact.label}</dt><dd dir="auto">{fact.value}</dd></div> }
            });
            view! { <dl class="facts">{facts.collect_view()}</dl> }.into_any()
        }
        Block::Series(facts) => {
            let facts = facts.into_iter().map(|fact| {
                view! {
                    <div><dt>{fact.label} ":"</dt> " " <dd dir="auto">{fact.value} "."</dd> " "</div>
                }
            });
            view! { <dl class="series">{facts.collect_view()}</dl> }.into_any()
        }
        Block::Drawings(drawings) => {
            let figures = drawings
                .into_iter()
                .map(|drawing| figure(drawing, false))
                .collect_view();
            view! { <div class="figures">{figures}</div> }.into_any()
        }
        Block::TrueSize { drawing, otherwise } => true_size(drawing, otherwise),
        Block::Illustrated { drawing, beside } => {
            let said = each(beside);
            view! {
                <div class="figures beside">{figure(drawing, false)}<div class="stack">{said}</div></div>
            }
            .into_any()
        }
        Block::Pictures(pictures) => {
            let figures = pictures.into_iter().map(pictured).collect_view();
            view! { <div class="figures">{figures}</div> }.into_any()
        }
        Block::Verdict(verdict) => show_verdict(verdict),
        Block::Notice(notice) => show_notice(notice),
        Block::Table(table) => laid(table, has_caption),
        Block::Items(items) => {
            let items = items.into_iter().map(item).collect_view();
            view! { <ul class="list">{items}</ul> }.into_any()
        }
        Block::Code { label, groups } => {
            view! { <p>{label} " " <code>{groups.join(" ")}</code></p> }.into_any()
        }
        Block::Signatures(signs) => {
            let signs = signs.into_iter().map(|sign| view! { <p>{sign}</p> });
            view! { <div class="signs">{signs.collect_view()}</div> }.into_any()
        }
    }
}

fn figure(drawing: Drawing, is_true_size: bool) -> AnyView {
    let (shown, title) = (drawing.clone(), drawing.title.clone());
    framed(shown, title, drawing, is_true_size)
}

/// A drawing in millimetres, as large as it is where there is room. Its file gets check lines in
/// any case.
fn true_size(drawing: Drawing, otherwise: Oversize) -> AnyView {
    let title = drawing.title.clone();
    let (shown, words) = match otherwise {
        Oversize::SmallerOrChecked => {
            let shown = with_check_lines(&drawing);
            (shown, format!("{title}. {CHECKED_SIZE}"))
        }
        Oversize::Sheets | Oversize::Smaller => (drawing.clone(), title),
    };
    let wide = format!("{:.1}mm", shown.width);
    let figure = framed(shown, words, drawing, true);
    view! { <div class="true-size" style:max-width=wide>{figure}</div> }.into_any()
}

/// A drawing as it is shown, with words under it and the one that can be saved.
fn framed(shown: Drawing, words: String, saved: Drawing, is_true_size: bool) -> AnyView {
    view! {
        <figure>
            <Readable drawing=shown />
            <figcaption>{words}</figcaption>
            <SaveDrawing drawing=saved is_true_size />
        </figure>
    }
    .into_any()
}

fn pictured(shown: Pictured) -> AnyView {
    view! {
        <figure>
            {picture(shown.digest, shown.alt)}
            <figcaption dir="auto">{shown.caption}</figcaption>
        </figure>
    }
    .into_any()
}

fn show_verdict(verdict: Verdict) -> AnyView {
    view! {
        <div class="verdict-line">
            <p class="award">{verdict.award}</p>
            <p class="marks" data-size="total"><b>{verdict.marks}</b> " " {verdict.out_of}</p>
            <p>{verdict.rest}</p>
        </div>
        <Drawn drawing=verdict.ruler.clone() class="rule" />
        <SaveDrawing drawing=verdict.ruler />
    }
    .into_any()
}

fn show_notice(notice: Notice) -> AnyView {
    let kind = match notice.weight {
        Weight::Info => None,
        Weight::Warn => Some("warn"),
        Weight::Stop => Some("stop"),
    };
    let items = notice.items.into_iter();
    let items: Vec<_> = items
        .map(|item| view! { <li dir="auto">{item}</li> })
        .collect();
    let items = (!items.is_empty()).then(|| view! { <ul>{items}</ul> });
    view! {
        <div class="notice" data-kind=kind>
            <p>{notice.text}</p>
            {items}
        </div>
    }
    .into_any()
}

fn item(item: Item) -> AnyView {
    let Item { lead, lines } = item;
    let lead = (!lead.is_empty()).then(|| view! { <p><b><bdi>{lead}</bdi></b></p> });
    let lines = lines
        .into_iter()
        .map(|line| view! { <p dir="auto">{line}</p> })
        .collect_view();
    view! { <li>{lead} {lines}</li> }.into_any()
}

/// A table, each row a short list on a phone.
pub(super) fn show_table(table: Table) -> AnyView {
    laid(table, true)
}

fn laid(table: Table, has_caption: bool) -> AnyView {
    let Table {
        caption,
        columns,
        groups,
        foot,
    } = table;
    let number = TABLES.fetch_add(1, Ordering::Relaxed);
    let id = format!("table-{number}");
    let titles: Vec<_> = columns.iter().map(|column| column.title.clone()).collect();
    let heads = columns.into_iter().map(|column| {
        view! { <th scope="col" class=class_of(column.role)>{column.title}</th> }
    });
    let heads = heads.collect_view();
    let bodies = groups
        .into_iter()
        .map(|group| body(group, &titles))
        .collect_view();
    let foot = (!foot.is_empty()).then(|| view! { <tfoot>{foot_row(foot)}</tfoot> });
    view! {
        <div class="scroller" role="region" aria-labelledby=id.clone() tabindex="0">
            <table class="table" data-stack="">
                <caption id=id.clone() class:unseen=!has_caption>{caption}</caption>
                <thead><tr>{heads}</tr></thead>
                {bodies}
                {foot}
            </table>
        </div>
    }
    .into_any()
}

fn body(group: Group, titles: &[Cow<'static, str>]) -> AnyView {
    let Group { heading, rows } = group;
    let wide = titles.len().to_string();
    let heading = (!heading.is_empty()).then(|| {
        view! { <tr><th scope="rowgroup" colspan=wide dir="auto">{heading}</th></tr> }
    });
    let rows = rows.into_iter().map(|row| {
        let cells = row.into_iter().zip(titles).enumerate();
        let cells = cells.map(|(at, (own, title))| {
            // Room to write in names no row.
            if at == 0 && !own.text.is_empty() {
                view! { <th scope="row" dir="auto">{own.text}</th> }.into_any()
            } else {
                cell(own, Some(title.clone()), 1)
            }
        });
        view! { <tr>{cells.collect_view()}</tr> }
    });
    view! { <tbody>{heading} {rows.collect_view()}</tbody> }.into_any()
}

/// The row at the foot: a cell takes the empty ones after it in.
fn foot_row(cells: Vec<Cell>) -> AnyView {
    let mut wide: Vec<(Cell, usize)> = Vec::new();
    for cell in cells {
        match wide.last_mut() {
            Some((_, columns)) if cell.text.is_empty() => *columns += 1,
            _ => wide.push((cell, 1)),
        }
    }
    let cells = wide.into_iter().enumerate().map(|(at, (own, columns))| {
        if at == 0 {
            let columns = columns.to_string();
            view! { <th scope="row" colspan=columns>{own.text}</th> }.into_any()
        } else {
            cell(own, None, columns)
        }
    });
    view! { <tr>{cells.collect_view()}</tr> }.into_any()
}

fn cell(cell: Cell, title: Option<Cow<'static, str>>, columns: usize) -> AnyView {
    let Cell {
        role,
        band,
        text,
        drawing,
    } = cell;
    let drawing = drawing.map(|drawing| view! { <Drawn drawing class="strip" /> });
    let band = band.map(|band| {
        view! { <span class="band" data-band=band.to_string() aria-hidden="true"></span> " " }
    });
    let columns = (columns > 1).then(|| columns.to_string());
    view! {
        <td class=class_of(role) data-label=title colspan=columns dir="auto">{band} {text} {drawing}</td>
    }
    .into_any()
}

fn class_of(role: CellRole) -> Option<&'static str> {
    match role {
        CellRole::Text => None,
        CellRole::Number => Some("num"),
        CellRole::Quiet => Some("quiet"),
        CellRole::Blank => Some("write"),
    }
}

/// Prints the page.
#[component]
pub(super) fn PrintButton() -> impl IntoView {
    let keeper = Keeper::here();
    let print = move |_| {
        if window().print().is_err() {
            keeper.notices().show(notices::Notice {
                key: NO_PRINT,
                weight: notices::Weight::Stop,
                text: "This browser does not print; open the page in another one.".to_owned(),
                remedy: None,
                closes: true,
            });
        }
    };
    view! {
        <button type="button" class="button" data-kind="primary" on:click=print>"Print"</button>
    }
}
