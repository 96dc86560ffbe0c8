/** Sources that checks of more than one kind name. */
export const CHAPTER = 'Book chapter, doi 10.1007/978-3-319-78387-1_47, Springer, summary box';
