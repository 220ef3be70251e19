using LeafScan.Leaves;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace LeafScan.Web.Api;

/// <summary>The head of the OpenAPI document, and what is said of it once for all addresses.</summary>
internal static class ApiDescription
{
    public static void Describe(OpenApiOptions options)
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new OpenApiInfo
            {
                Title = "LeafScan",
                Version = ToolVersion.Current,
                Description = "The local interface behind the page. Shares and damage are 0 to 1, dates yyyy-MM-dd, times UTC. Everything that writes needs the header X-LeafScan: 1. "
                    + "What goes wrong comes as application/problem+json: title says what happened, detail what is safe and what to do next.",
            };

            // The address under which it was asked for says nothing; the path is all that counts.
            document.Servers?.Clear();
            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, context, _) =>
        {
            if (!HttpMethods.IsGet(context.Description.HttpMethod ?? "") && !HttpMethods.IsHead(context.Description.HttpMethod ?? ""))
            {
                (operation.Parameters ??= []).Add(new OpenApiParameter
                {
                    Name = Safety.OriginCheck.HeaderName,
                    In = ParameterLocation.Header,
                    Required = true,
                    Description = "Always 1: a form on a foreign page cannot send it.",
                    Schema = new OpenApiSchema { Type = JsonSchemaType.String },
                });
            }

            return Task.CompletedTask;
        });
    }
}
