using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace EdgeLens.Store.Database;

/// <summary>For `dotnet ef migrations add` only.</summary>
internal sealed class DesignTimeBook : IDesignTimeDbContextFactory<BookContext>
{
    public BookContext CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<BookContext>().UseSqlite("Data Source=:memory:").Options, "");
}
