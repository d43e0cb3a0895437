namespace EdgeLens.Records.Book;

/// <summary>What cannot be entered into or read from a book: what, where, what to do.</summary>
public sealed class BookException(string message, Exception? inner = null) : Exception(message, inner);
