use std::num::{NonZeroU16, NonZeroU32};

use krilla::tagging::{
    Identifier, ListNumbering, Node as KrillaNode, TableHeaderScope, Tag, TagGroup, TagKind,
    TagTree,
};

/// What a part of the document is to those who hear it read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Role {
    /// One of several documents in a file.
    Part {
        /// Its language, as BCP 47 has it.
        language: String,
    },
    /// A heading.
    Heading {
        /// 1 to 3.
        level: u16,
        /// What it says.
        title: String,
    },
    /// A paragraph.
    Paragraph,
    /// Words that weigh more.
    Strong,
    /// Words in a paragraph that has several parts.
    Words,
    /// A list.
    List {
        /// Whether its items have discs before them.
        has_discs: bool,
    },
    /// An item of a list.
    Item,
    /// What stands before an item.
    Label,
    /// What an item says.
    Body,
    /// A table.
    Table,
    /// What a table shows.
    Caption,
    /// Its head.
    TableHead,
    /// Its rows.
    TableBody,
    /// Its foot.
    TableFoot,
    /// A row.
    Row,
    /// A cell that names a column.
    ColumnName,
    /// A cell that names a row, or the rows below it, and takes so many columns.
    RowName(u32),
    /// A cell with a value, which takes so many columns.
    Value(u32),
    /// A drawing.
    Figure {
        /// What it shows, in words.
        alt: String,
    },
}

impl Role {
    fn tag(&self) -> TagKind {
        match self {
            Self::Part { language } => Tag::Part.with_lang(Some(language.clone())).into(),
            Self::Heading { level, title } => {
                let level = NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN);
                Tag::Hn(level, Some(title.clone())).into()
            }
            Self::Paragraph => Tag::P.into(),
            Self::Strong => Tag::Strong.into(),
            Self::Words => Tag::Span.into(),
            Self::List { has_discs: true } => Tag::L(ListNumbering::Disc).into(),
            Self::List { has_discs: false } => Tag::L(ListNumbering::None).into(),
            Self::Item => Tag::LI.into(),
            Self::Label => Tag::Lbl.into(),
            Self::Body => Tag::LBody.into(),
            Self::Table => Tag::Table.into(),
            Self::Caption => Tag::Caption.into(),
            Self::TableHead => Tag::THead.into(),
            Self::TableBody => Tag::TBody.into(),
            Self::TableFoot => Tag::TFoot.into(),
            Self::Row => Tag::TR.into(),
            Self::ColumnName => Tag::TH(TableHeaderScope::Column).into(),
            Self::RowName(columns) => Tag::TH(TableHeaderScope::Row)
                .with_col_span(several(*columns))
                .into(),
            Self::Value(columns) => Tag::TD.with_col_span(several(*columns)).into(),
            Self::Figure { alt } => Tag::Figure(Some(alt.clone())).into(),
        }
    }
}

fn several(columns: u32) -> Option<NonZeroU32> {
    NonZeroU32::new(columns).filter(|columns| columns.get() > 1)
}

/// A place in a [`Tree`]; a later one is read later.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct NodeId(usize);

#[derive(Debug, Clone, PartialEq, Eq)]
struct Node {
    role: Role,
    parent: Option<NodeId>,
}

/// The parts of a file in the order in which they are read. A part holds either others
/// or what is drawn for it.
#[derive(Debug, Clone, Default)]
pub(super) struct Tree {
    nodes: Vec<Node>,
}

impl Tree {
    /// Adds a part at the end of `parent`, or of the file.
    pub(super) fn add(&mut self, parent: Option<NodeId>, role: Role) -> NodeId {
        self.nodes.push(Node { role, parent });
        NodeId(self.nodes.len() - 1)
    }

    /// What a part is.
    pub(super) fn role(&self, NodeId(at): NodeId) -> Option<&Role> {
        self.nodes.get(at).map(|node| &node.role)
    }

    /// The tags of the file; `drawn` says which part each drawn thing is of, in order.
    pub(super) fn tags(self, drawn: Vec<(NodeId, Identifier)>, language: &str) -> TagTree {
        let mut inside: Vec<Vec<KrillaNode>> = vec![Vec::new(); self.nodes.len()];
        for (NodeId(at), drawn) in drawn {
            if let Some(inside) = inside.get_mut(at) {
                inside.push(drawn.into());
            }
        }
        let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
        // From the last to the first, so that each is whole before its parent takes it in.
        for node in self.nodes.into_iter().rev() {
            let children = inside.pop().unwrap_or_default();
            let mut group = TagGroup::with_children(node.role.tag(), children);
            if let Some(KrillaNode::Group(_)) = group.children.first() {
                group.children.reverse();
            }
            match node.parent.and_then(|NodeId(at)| inside.get_mut(at)) {
                Some(parent) => parent.push(group.into()),
                None => tree.push(group),
            }
        }
        tree.children.reverse();
        tree
    }
}
